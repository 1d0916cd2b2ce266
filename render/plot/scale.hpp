#pragma once
#include "frame/geometry.hpp"

#include <vector>

namespace wayfolio::plot {

using frame::Paper;

/// A straight map from numbers (in the shown unit) to paper. y scales have `from` at the bottom, so `low` maps to the larger y.
class Scale {
public:
    Scale(double low, double high, Paper from, Paper to) : low_(low), high_(high), from_(from), to_(to) {}
    [[nodiscard]] Paper map(double value) const { return from_ + (to_ - from_) * ((value - low_) / (high_ - low_)); }
    [[nodiscard]] double low() const { return low_; }
    [[nodiscard]] double high() const { return high_; }
    [[nodiscard]] Paper from() const { return from_; }
    [[nodiscard]] Paper to() const { return to_; }

private:
    double low_, high_;
    Paper from_, to_;
};

/// Round numbers on a scale: whole multiples of a step of 1, 2 or 5 times a power of ten, rising.
struct Ticks {
    std::vector<double> values;
    double step;
    int decimals;  ///< that show the step exactly
    [[nodiscard]] double low() const { return values.front(); }   ///< not of empty ticks
    [[nodiscard]] double high() const { return values.back(); }  ///< not of empty ticks
};

/// Round ticks that enclose [low, high] with at most `most` intervals. Never empty: a range of no width, or
/// of less than doubles can divide, is widened about its middle.
Ticks enclosing_ticks(double low, double high, int most);

/// Round ticks inside [low, high], at most `most` of them (position axes, which end where the data end). Empty where the range holds no
/// number that is round enough, or is less than doubles can divide; the one value of a range of no width.
Ticks inside_ticks(double low, double high, int most);

}  // namespace wayfolio::plot
