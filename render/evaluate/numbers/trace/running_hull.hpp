#pragma once
#include <cstddef>
#include <vector>

namespace wayfolio::evaluate {

/// One sample of a trace, in plain numbers; samples are counted from 0.
struct TracePoint {
    std::size_t sample;
    double x, y;
};

/// The convex hull of points that come one at a time in any order. What deviates most from any straight line is a corner of the hull, so
/// that ranges about lines, and the strip of least width, are exact without the points being kept. Held are the corners and as many points
/// that wait. Nothing that is measured has 200 000 corners; of a curve without noise that has, some are left out again and again, which
/// takes less than 1e-6 off a range, however many points there are.
class RunningHull {
public:
    void add(const TracePoint& from) {
        TracePoint& point = waiting_[held_] = from;  // at once where it may stay: a copy of what was just put together has to wait for it
        if (inner_.holds(point)) return;             // nearly every point
        if (lower_.lies_within(point, +1) && upper_.lies_within(point, -1)) {
            inner_ = Box(lower_, upper_);
            return;
        }
        if (++held_ == waiting_.size()) fold();
    }
    /// Begins anew, in the memory that it has.
    void clear();
    /// Rising in x, and at one x in y; of equal points the first sample.
    [[nodiscard]] std::vector<TracePoint> corners() const;

private:
    static constexpr std::size_t most_waiting = 4096, most_corners = 200'000;
    static constexpr double next_to_nothing = 4e-10;  ///< of the range: at most 63 000 corners stand out by more

    struct Sides {
        std::vector<TracePoint> lower, upper;
    };
    /// One side of the hull so far.
    struct Side {
        std::vector<TracePoint> corners;
        std::size_t at = 0;  ///< the corner before the point that was asked for last

        /// Whether the point lies truly on the inner side. `side` +1: of the lower, -1: of the upper.
        bool lies_within(const TracePoint& point, double side);
    };
    /// Between the stretches of both sides where the last point lay: whatever lies in it lies within the hull.
    struct Box {
        double low_x = 0, high_x = 0, low_y = 0, high_y = 0;

        Box() = default;
        Box(const Side& lower, const Side& upper);
        [[nodiscard]] bool holds(const TracePoint& point) const {
            return point.x > low_x && point.x < high_x && point.y > low_y && point.y < high_y;
        }
    };

    [[nodiscard]] Sides sides() const;
    [[nodiscard]] static std::vector<TracePoint> united(const Sides& sides);
    static void thin(Sides& sides);
    void fold();

    std::vector<TracePoint> waiting_ = std::vector<TracePoint>(most_waiting);  ///< the corners so far, then points not folded in, then room
    std::size_t held_ = 0;                                                       ///< corners and points in it
    Side lower_, upper_;               ///< of the corners so far
    Box inner_;
    std::size_t corners_ = 0;
};

}  // namespace wayfolio::evaluate
