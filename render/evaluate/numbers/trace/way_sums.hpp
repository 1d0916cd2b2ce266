#pragma once
#include "evaluate/numbers/least_squares.hpp"
#include "evaluate/numbers/trace/passes.hpp"
#include "evaluate/numbers/trace/running_sums.hpp"

#include <array>
#include <optional>

namespace wayfolio::evaluate {

/// The least-squares line of a trace over its way, not over its samples: the integral of the squared deviations along the stretches is
/// least. An axis that starts slowly, or rests, gives many samples at one place, which would pull a line through the samples there.
/// For even samples without end the two are one line.
class WayLine {
public:
    /// Integrals of 1, x, y, x^2 and x y along the straight line between the two samples.
    void add(const Stretch& stretch) {
        if (!x0_) x0_ = stretch.from_x, y0_ = stretch.from_y;
        const double a = stretch.from_x - *x0_, b = stretch.to_x - *x0_, p = stretch.from_y - *y0_, q = stretch.to_y - *y0_;
        const double way = stretch.way();
        way_.add(way);
        x_.add(way * (a + b) / 2);
        y_.add(way * (p + q) / 2);
        xx_.add(way * (a * a + a * b + b * b) / 3);
        xy_.add(way * (2 * a * p + a * q + b * p + 2 * b * q) / 6);
    }
    /// Nothing where all of the way is one place.
    [[nodiscard]] std::optional<Line> line() const;

private:
    std::optional<double> x0_, y0_;  ///< sums are of differences to the first sample
    CompensatedSum way_, x_, y_, xx_, xy_;
};

/// A sine of one stated period, fitted together with a straight line, over the way: half of each stretch counts for either sample.
class WayPeriod {
public:
    explicit WayPeriod(double period) : period_(period) {}
    void add(const Stretch& stretch);

    struct Fit {
        double amplitude;
        double share;  ///< of what scatters about the line, 0..1
    };
    /// Nothing where fewer than three periods were passed, or where sine and line cannot be told apart.
    [[nodiscard]] std::optional<Fit> fit() const;
    /// The longest way between two samples.
    [[nodiscard]] double longest_stretch() const { return longest_; }
    [[nodiscard]] double span() const { return high_ - low_; }

private:
    void add(double x, double y, double weight);

    double period_;
    std::optional<double> x0_, y0_;
    double low_ = 0, high_ = 0, longest_ = 0;
    std::array<std::array<CompensatedSum, 4>, 4> products_;  ///< of 1, x, cosine, sine; the lower triangle
    std::array<CompensatedSum, 4> with_y_;
    CompensatedSum yy_;
};

}  // namespace wayfolio::evaluate
