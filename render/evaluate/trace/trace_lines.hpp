#pragma once
#include "evaluate/numbers/trace/running_hull.hpp"
#include "evaluate/numbers/trace/sliding_zone.hpp"
#include "evaluate/numbers/trace/way_sums.hpp"
#include "evaluate/series_evaluation.hpp"

#include <span>
#include <vector>

namespace wayfolio::evaluate {

/// Highest and lowest of what comes one after the other; of equal ones the first.
struct TraceExtremes {
    TracePoint highest{}, lowest{};
    std::size_t count = 0;

    void add(const TracePoint& point) {
        if (count++ == 0) highest = lowest = point;
        if (point.y > highest.y) highest = point;
        if (point.y < lowest.y) lowest = point;
    }
};

/// Reference lines of a straightness trace, and its local straightness: of the samples as they are, or filtered.
class TraceLines {
public:
    enum class Of { Samples, FilteredValues };

    /// @param series a straightness error of a linear axis
    /// @param lengths of windows, in mm
    TraceLines(const document::Series& series, Of of, const std::vector<double>& lengths);

    /// One thread may add points while another adds stretches.
    void add(std::span<const TracePoint> points);
    void add(std::span<const Stretch> stretches);

    /// Needs a stretch.
    [[nodiscard]] std::vector<TraceLine> lines() const;
    [[nodiscard]] std::vector<TraceLocal> local() const;

private:
    [[nodiscard]] TraceLine line_result(document::ReferenceLine kind, const Line& line, const std::vector<TracePoint>& corners) const;
    [[nodiscard]] TracePlace place(const TracePoint& point, double value) const;

    struct Window {
        double length;
        SlidingZone zone;
    };
    const document::Series& series_;
    Of of_;
    RunningHull hull_;
    WayLine line_;
    std::vector<Window> windows_;
};

}  // namespace wayfolio::evaluate
