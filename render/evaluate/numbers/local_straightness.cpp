#include "evaluate/numbers/local_straightness.hpp"

#include "evaluate/numbers/reference_lines.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

// Why a finite number of windows is enough [derived]: between two starts at which an end of the window passes a point of the
// profile, both ends run along straight lines. The deviation difference of two fixed points from the chord is then linear in the
// start; so is the width that three points give where none or one of them is an end, or it is a fraction of two linear functions:
// all monotone. Only a fixed point against the chord of both moving ends is quadratic. And the minimum zone of many points is the
// largest one of any three of them (the theorem of de la Vallée Poussin on Chebyshev approximation). So the largest value stands
// at a start where an end passes a point, or at the vertex of such a quadratic.

namespace wayfolio::evaluate {

namespace {

struct Profile {
    std::span<const double> x, y;

    /// First point at or beyond `at`.
    [[nodiscard]] std::size_t index_from(double at) const {
        return static_cast<std::size_t>(std::lower_bound(x.begin(), x.end(), at) - x.begin());
    }
    [[nodiscard]] std::size_t segment(double at) const { return std::clamp<std::size_t>(index_from(at), 1, x.size() - 1); }
    [[nodiscard]] double slope(std::size_t segment) const {
        return (y[segment] - y[segment - 1]) / (x[segment] - x[segment - 1]);
    }
    [[nodiscard]] double height(double at) const {
        const std::size_t s = segment(at);
        return y[s] - slope(s) * (x[s] - at);
    }
};

double window_value(const Profile& profile, double from, double length, WindowLine kind) {
    const double to = std::min(from + length, profile.x.back());
    std::vector<double> x{from}, y{profile.height(from)};
    for (std::size_t i = profile.index_from(from); i < profile.x.size() && profile.x[i] < to; ++i) {
        if (profile.x[i] <= from) continue;
        x.push_back(profile.x[i]);
        y.push_back(profile.y[i]);
    }
    x.push_back(to);
    y.push_back(profile.height(to));
    const Line line = kind == WindowLine::EndPoint ? end_point_line(x, y) : minimum_zone_line(x, y);
    return extremes_about(line, x, y).range();
}

/// Every start at which an end of the window passes a point, in rising order.
std::vector<double> corner_starts(const Profile& profile, double length) {
    const double first = profile.x.front(), last = std::max(first, profile.x.back() - length);
    std::vector<double> starts{first, last};
    for (const double x : profile.x)
        for (const double start : {x, x - length})
            if (start > first && start < last) starts.push_back(start);
    std::sort(starts.begin(), starts.end());
    starts.erase(std::unique(starts.begin(), starts.end()), starts.end());
    return starts;
}

class Largest {
public:
    explicit Largest(double length) : length_(length) {}
    void consider(double from, double value) {
        if (best_ && value <= best_->value * (1 + 1e-12)) return;
        best_ = Window{from, from + length_, value};
    }
    [[nodiscard]] const std::optional<Window>& window() const { return best_; }

private:
    double length_;
    std::optional<Window> best_;
};

/// Starts between two corners at which a point inside the window stands farthest from the chord of both ends.
void consider_vertices(const Profile& profile, double begin, double end, double length, Largest& largest) {
    const double middle = (begin + end) / 2;
    const double rise_from = profile.slope(profile.segment(middle)), rise_to = profile.slope(profile.segment(middle + length));
    const double bend = (rise_to - rise_from) / length;  // how fast the chord's slope changes with the start
    if (bend == 0) return;
    const double from_height = profile.height(middle), chord = (profile.height(middle + length) - from_height) / length;
    for (std::size_t i = profile.index_from(middle); i < profile.x.size() && profile.x[i] < middle + length; ++i) {
        // A point inside the middle window is inside all of them; asked at the ends, rounding of x - length + length could lose
        // it. With h = start - middle and r = x - middle: d(h) = y - from - rise_from h - (chord + bend h)(r - h).
        const double r = profile.x[i] - middle;
        const double vertex = (rise_from + bend * r - chord) / (2 * bend);
        if (!(middle + vertex > begin && middle + vertex < end)) continue;
        const double d = profile.y[i] - from_height - rise_from * vertex - (chord + bend * vertex) * (r - vertex);
        largest.consider(middle + vertex, std::abs(d));
    }
}

}  // namespace

std::optional<Window> largest_window(std::span<const double> x, std::span<const double> y, double length, WindowLine line) {
    const Profile profile{x, y};
    const double travel = x.back() - x.front();
    if (x.size() < 2 || !(length > 0) || length > travel * (1 + 1e-12)) return std::nullopt;
    const std::vector<double> starts = corner_starts(profile, length);
    Largest largest(length);
    for (std::size_t i = 0; i < starts.size(); ++i) {
        largest.consider(starts[i], window_value(profile, starts[i], length, line));
        if (i + 1 < starts.size()) consider_vertices(profile, starts[i], starts[i + 1], length, largest);
    }
    return largest.window();
}

}  // namespace wayfolio::evaluate
