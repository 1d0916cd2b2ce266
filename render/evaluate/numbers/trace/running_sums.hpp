#pragma once
#include <algorithm>
#include <cmath>
#include <cstddef>

/// Sums of values that come one at a time, however many: what is held does not grow.
namespace wayfolio::evaluate {

/// A sum that carries what rounding takes off (Neumaier, ZAMM 54 (1974) 39 [from memory]): of 10^8 values as good as of ten.
class CompensatedSum {
public:
    void add(double value) {
        const double sum = sum_ + value;
        rest_ += std::abs(sum_) >= std::abs(value) ? (sum_ - sum) + value : (value - sum) + sum_;
        sum_ = sum;
    }
    [[nodiscard]] double value() const { return sum_ + rest_; }

private:
    double sum_ = 0, rest_ = 0;
};

/// Mean and sample standard deviation, from the differences to the first value: leading digits that all values share cost nothing.
class RunningStatistics {
public:
    void add(double value) {
        if (count_++ == 0) first_ = value;
        const double difference = value - first_;
        sum_.add(difference);
        squares_.add(difference * difference);
    }
    [[nodiscard]] std::size_t count() const { return count_; }
    /// Needs one value.
    [[nodiscard]] double mean() const { return first_ + sum_.value() / static_cast<double>(count_); }
    /// Divisor n - 1. Needs two values.
    [[nodiscard]] double standard_deviation() const {
        const auto n = static_cast<double>(count_);
        return std::sqrt(std::max(0.0, (squares_.value() - sum_.value() * sum_.value() / n) / (n - 1)));
    }

private:
    std::size_t count_ = 0;
    double first_ = 0;
    CompensatedSum sum_, squares_;
};

}  // namespace wayfolio::evaluate
