#include "evaluate/numbers/monte_carlo.hpp"

#include <boost/random/chi_squared_distribution.hpp>
#include <boost/random/exponential_distribution.hpp>

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

namespace wayfolio::evaluate {

double Draws::triangular(double low, double high) { return low + (high - low) / 2 * (uniform_(engine_) + uniform_(engine_)); }

double Draws::u_shaped(double low, double high) {
    constexpr double two_pi = 6.28318530717958647692;
    return (low + high) / 2 + (high - low) / 2 * std::sin(two_pi * uniform_(engine_));
}

double Draws::student(double location, double scale, double degrees_of_freedom) {
    boost::random::chi_squared_distribution<double> chi_squared(degrees_of_freedom);
    return location + scale * normal_(engine_) / std::sqrt(chi_squared(engine_) / degrees_of_freedom);
}

double Draws::curvilinear_trapezoid(double low, double high, double d) {
    const double a = rectangular(low - d, low + d);
    const double b = low + high - a;
    return rectangular(a, b);
}

double Draws::chi_squared(std::size_t degrees_of_freedom) {
    constexpr std::size_t few = 32;
    if (degrees_of_freedom > few)
        return boost::random::chi_squared_distribution<double>(static_cast<double>(degrees_of_freedom))(engine_);
    // Two degrees of freedom are an exponential of mean 2: faster than the general way for the few runs of an axis test.
    boost::random::exponential_distribution<double> exponential;
    double sum = 0;
    for (std::size_t pair = 0; pair < degrees_of_freedom / 2; ++pair) sum += 2 * exponential(engine_);
    if (degrees_of_freedom % 2 == 1) {
        const double odd = normal_(engine_);
        sum += odd * odd;
    }
    return sum;
}

namespace {

/// Places of the ends of the symmetric interval among M sorted values, JCGM 101 7.7.2: q = pM (rounded), r = (M - q) / 2.
std::pair<std::size_t, std::size_t> interval_places(std::size_t count, double coverage) {
    const auto within = static_cast<std::size_t>(std::floor(coverage * static_cast<double>(count) + 0.5));
    const std::size_t low = (count - within + 1) / 2;
    return {low == 0 ? 0 : low - 1, std::min(count - 1, low + within - (low == 0 ? 0 : 1))};
}

/// Counts off the value at one place of all values, were they sorted, while they go by in any order.
class OrderStatistic {
public:
    /// @param kept values of the first trials @param count all trials
    OrderStatistic(std::vector<double>& kept, std::size_t count, std::size_t place) : place_(place) {
        const double share = (static_cast<double>(place) + 0.5) / static_cast<double>(count), n = static_cast<double>(kept.size());
        // Six standard deviations of a binomial count to each side; none where all values are there.
        const double doubt = kept.size() == count ? 0 : 6 * std::sqrt(n * share * (1 - share)) + 1;
        low_ = sorted_at(kept, share * n - doubt);
        high_ = sorted_at(kept, share * n + doubt);
    }
    void take(double value) {
        if (value < low_) ++below_;
        else if (value == low_) ++at_low_;
        else if (value < high_) between_.push_back(value);
        else if (value == high_) ++at_high_;
    }
    [[nodiscard]] bool is_below() const { return place_ < below_; }
    [[nodiscard]] bool is_above() const { return place_ >= below_ + at_low_ + between_.size() + at_high_; }
    /// Where it is neither.
    [[nodiscard]] double value() {
        std::size_t place = place_ - below_;
        if (place < at_low_) return low_;
        place -= at_low_;
        if (place >= between_.size()) return high_;
        std::nth_element(between_.begin(), between_.begin() + static_cast<std::ptrdiff_t>(place), between_.end());
        return between_[place];
    }
    /// For another pass, where the first trials were unlike the others.
    void look_elsewhere() {
        if (is_below()) std::tie(low_, high_) = std::pair(-INFINITY, low_);
        else if (is_above()) std::tie(low_, high_) = std::pair(high_, INFINITY);
        below_ = at_low_ = at_high_ = 0;
        between_.clear();
    }

private:
    static double sorted_at(std::vector<double>& values, double place) {
        if (place < 0) return -INFINITY;
        if (place >= static_cast<double>(values.size())) return INFINITY;
        const auto found = values.begin() + static_cast<std::ptrdiff_t>(place);
        std::nth_element(values.begin(), found, values.end());
        return *found;
    }

    std::size_t place_, below_ = 0, at_low_ = 0, at_high_ = 0;
    double low_ = 0, high_ = 0;
    std::vector<double> between_;
};

/// One of the numbers. The same sums in the same order as mean() and standard_deviation().
class Column {
public:
    Column(const RepeatedTrials& trials, std::size_t number, double coverage, const Band& band)
        : Column(trials.kept(number), trials.count(), interval_places(trials.count(), coverage), band) {}
    void take_sum(double value) {
        sum_ += value;
        take_end(value);
    }
    void take_left_over(double value) { left_over_ += value - mean_; }
    void end_pass() { mean_ = sum_ / n_ + left_over_ / n_; }
    void take_square(double value) {
        const double residual = value - mean_, shift = mean_ - band_.middle;
        residuals_ += residual;
        squares_ += residual * residual;
        if (std::abs(value - shift - band_.middle) <= band_.half_width) ++inside_;
    }
    void take_end(double value) {
        low_.take(value);
        high_.take(value);
    }
    [[nodiscard]] bool is_missed() const { return low_.is_below() || low_.is_above() || high_.is_below() || high_.is_above(); }
    void look_elsewhere() {
        low_.look_elsewhere();
        high_.look_elsewhere();
    }
    [[nodiscard]] Simulated result() {
        const double standard = std::sqrt((squares_ - residuals_ * residuals_ / n_) / (n_ - 1));
        return {mean_, standard, {low_.value(), high_.value()}, inside_};
    }

private:
    Column(std::vector<double> kept, std::size_t count, std::pair<std::size_t, std::size_t> ends, const Band& band)
        : n_(static_cast<double>(count)), band_(band), low_(kept, count, ends.first), high_(kept, count, ends.second) {}

    double n_;
    Band band_;
    OrderStatistic low_, high_;
    double sum_ = 0, left_over_ = 0, mean_ = 0, residuals_ = 0, squares_ = 0;
    std::size_t inside_ = 0;
};

}  // namespace

RepeatedTrials::RepeatedTrials(std::size_t count, std::size_t numbers, std::uint64_t seed, std::size_t most_kept, Model model)
    : count_(count), numbers_(numbers), model_(std::move(model)), kept_(std::min(count, most_kept) * numbers), after_(seed) {
    for (std::size_t at = 0; at < kept_.size(); at += numbers_) model_(after_, std::span(kept_).subspan(at, numbers_));
}

RepeatedTrials::RepeatedTrials(std::vector<double> values) : count_(values.size()), numbers_(1), kept_(std::move(values)), after_(0) {}

std::vector<double> RepeatedTrials::kept(std::size_t number) const {
    std::vector<double> values;
    values.reserve(kept_.size() / numbers_);
    for (std::size_t at = number; at < kept_.size(); at += numbers_) values.push_back(kept_[at]);
    return values;
}

void RepeatedTrials::each(const std::function<void(Row)>& take) const {
    for (std::size_t at = 0; at < kept_.size(); at += numbers_) take(Row(kept_).subspan(at, numbers_));
    Draws draws = after_;
    std::vector<double> row(numbers_);
    for (std::size_t trial = kept_.size() / numbers_; trial < count_; ++trial) {
        model_(draws, row);
        take(row);
    }
}

std::vector<Simulated> summaries(const RepeatedTrials& trials, double coverage, const std::vector<Band>& bands) {
    std::vector<Column> columns;
    for (std::size_t number = 0; number < trials.numbers(); ++number) columns.emplace_back(trials, number, coverage, bands[number]);
    const auto pass = [&](auto take) {
        trials.each([&](RepeatedTrials::Row row) {
            for (std::size_t number = 0; number < columns.size(); ++number) (columns[number].*take)(row[number]);
        });
        for (Column& column : columns) column.end_pass();
    };
    for (const auto take : {&Column::take_sum, &Column::take_left_over, &Column::take_square}) pass(take);
    while (std::ranges::any_of(columns, &Column::is_missed)) {
        for (Column& column : columns) column.look_elsewhere();
        pass(&Column::take_end);
    }
    std::vector<Simulated> all;
    for (Column& column : columns) all.push_back(column.result());
    return all;
}

Simulated summary(std::vector<double> values, double coverage) {
    return summaries(RepeatedTrials(std::move(values)), coverage, {{0, 0}}).front();
}

Interval shortest_interval(std::vector<double> values, double coverage) {
    std::sort(values.begin(), values.end());
    const auto within = static_cast<std::size_t>(std::floor(coverage * static_cast<double>(values.size()) + 0.5));
    Interval best{values.front(), values.back()};
    for (std::size_t first = 0; first + within < values.size(); ++first)
        if (values[first + within] - values[first] < best.high - best.low) best = {values[first], values[first + within]};
    return best;
}

double numerical_tolerance(double standard, int digits) {
    if (!(standard > 0)) return 0;
    int exponent = static_cast<int>(std::floor(std::log10(standard)));
    // Rounding may carry into the next decade: 0.96 with one digit is 1 x 10^0.
    if (std::round(standard * std::pow(10, digits - 1 - exponent)) >= std::pow(10, digits)) ++exponent;
    return std::pow(10, exponent - digits + 1) / 2;
}

Validation validate(double estimate, double expanded, double standard, const Interval& simulated, int digits) {
    Validation result{std::abs(estimate - expanded - simulated.low), std::abs(estimate + expanded - simulated.high),
                      numerical_tolerance(standard, digits), false};
    result.validated = result.d_low <= result.tolerance && result.d_high <= result.tolerance;
    return result;
}

}  // namespace wayfolio::evaluate
