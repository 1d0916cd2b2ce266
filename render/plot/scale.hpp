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

/// Ticks at 1-2-5 steps (or 1-3 in strips): round numbers that cover [low, high].
struct Ticks {
    std::vector<double> values;
    double step;
    int decimals;  ///< that show the step exactly
    [[nodiscard]] double low() const { return values.front(); }
    [[nodiscard]] double high() const { return values.back(); }
};

/// Round ticks that enclose [low, high] with at most `most` intervals. A range of no width is widened about its value.
Ticks enclosing_ticks(double low, double high, int most);

/// Round ticks inside [low, high], at most `most` of them (position axes, which end where the data end).
Ticks inside_ticks(double low, double high, int most);

}  // namespace wayfolio::plot
