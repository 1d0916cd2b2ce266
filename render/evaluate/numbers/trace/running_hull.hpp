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
/// that ranges about lines, and the strip of least width, are exact without the points being kept. Held are the corners and a few
/// thousand points that wait.
class RunningHull {
public:
    void add(const TracePoint& point) {
        waiting_.push_back(point);
        if (waiting_.size() >= corners_ + most_waiting) fold();
    }
    /// Rising in x, and at one x in y; of equal points the first sample.
    [[nodiscard]] std::vector<TracePoint> corners() const;

private:
    static constexpr std::size_t most_waiting = 4096;

    void fold() {
        waiting_ = corners();
        corners_ = waiting_.size();
    }

    std::vector<TracePoint> waiting_;  ///< the corners so far, then points not folded in
    std::size_t corners_ = 0;
};

}  // namespace wayfolio::evaluate
