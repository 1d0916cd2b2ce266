#pragma once

namespace wayfolio::evaluate {

/// Mean, variance and third central moment: each is the sum of those of independent parts.
struct Cumulants {
    double mean = 0, variance = 0, third = 0;

    Cumulants& operator+=(const Cumulants& other) {
        mean += other.mean;
        variance += other.variance;
        third += other.third;
        return *this;
    }
    friend Cumulants operator+(Cumulants a, const Cumulants& b) { return a += b; }
};

}  // namespace wayfolio::evaluate
