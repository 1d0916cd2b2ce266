#include "evaluate/trace/trace_lines.hpp"

#include "evaluate/numbers/reference_lines.hpp"
#include "evaluate/trace/plain_numbers.hpp"
#include "units/number_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace wayfolio::evaluate {
namespace {

using document::ReferenceLine;

/// The least limit that a series states for windows of this length.
std::optional<Deviation> limit_of(const document::Series& series, double length_mm) {
    std::optional<Deviation> least;
    for (const document::Tolerance& tolerance : series.tolerances)
        if (tolerance.parameter == "local" && tolerance.length_mm == length_mm && (!least || tolerance.limit < *least))
            least = tolerance.limit;
    return least;
}

}  // namespace

TraceLines::TraceLines(const document::Series& series, Of of, const std::vector<double>& lengths) : series_(series), of_(of) {
    for (const double length : lengths) windows_.push_back({length, SlidingZone(length)});
}

void TraceLines::add(std::span<const TracePoint> points) {
    for (const TracePoint& point : points) hull_.add(point);
}

void TraceLines::add(std::span<const Stretch> stretches) {
    WayLine line = line_;  // sums that nobody else can see stay in the processor's registers
    for (const Stretch& stretch : stretches) line.add(stretch);
    line_ = line;
    for (Window& window : windows_)
        for (const Stretch& stretch : stretches) window.zone.add(stretch);
}

std::vector<TraceLine> TraceLines::lines() const {
    const std::vector<TracePoint> corners = hull_.corners();
    std::vector<double> x, low, high;
    for (const TracePoint& corner : corners) {
        if (x.empty() || x.back() != corner.x) x.push_back(corner.x), low.push_back(corner.y), high.push_back(corner.y);
        high.back() = corner.y;
    }
    const std::array<double, 2> ends{x.front(), x.back()}, at_ends{(low.front() + high.front()) / 2, (low.back() + high.back()) / 2};
    const Line least_squares = *line_.line();
    return {line_result(ReferenceLine::EndPoint, end_point_line(ends, at_ends), corners),
            line_result(ReferenceLine::LeastSquares, least_squares, corners),
            line_result(ReferenceLine::MinimumZone, minimum_zone_line(least_squares, x, low, high), corners)};
}

TraceLine TraceLines::line_result(ReferenceLine kind, const Line& line, const std::vector<TracePoint>& corners) const {
    const auto about = [&](const TracePoint& point) { return point.y - line.at(point.x); };
    const TracePoint &highest = *std::ranges::max_element(corners, {}, about), &lowest = *std::ranges::min_element(corners, {}, about);
    return {.kind = kind,
            .straightness = plain_deviation(series_, about(highest) - about(lowest)),
            .slope = units::micrometre_per_metre(line.slope * 1e3),
            .offset = plain_deviation(series_, line.at(0)),
            .highest = place(highest, about(highest)),
            .lowest = place(lowest, about(lowest))};
}

TracePlace TraceLines::place(const TracePoint& point, double value) const {
    const auto sample = of_ == Of::Samples ? std::optional(point.sample) : std::nullopt;
    return {sample, plain_position(series_, point.x), plain_deviation(series_, value)};
}

std::vector<TraceLocal> TraceLines::local() const {
    constexpr double fewest_in_a_window = 4;
    std::vector<TraceLocal> all;
    for (const auto& [length, zone] : windows_) {
        TraceLocal local{.window = units::millimetre(length), .widest = NotEvaluated{}, .limit = limit_of(series_, length)};
        if (zone.longest_stretch() > length / fewest_in_a_window)
            local.widest = NotEvaluated{fmt::format("samples are up to {} mm apart: each window needs four at least",
                                                    units::shortest(zone.longest_stretch()))};
        else if (const auto found = zone.largest())
            local.widest = TraceLocal::Widest{plain_deviation(series_, found->value), plain_deviation(series_, found->at_most),
                                              plain_position(series_, found->from), plain_position(series_, found->to)};
        else
            local.widest = NotEvaluated{fmt::format("no pass is {} mm long{}", units::shortest(length),
                                                    of_ == Of::Samples ? "" : " without its ends, which are not filtered")};
        all.push_back(std::move(local));
    }
    return all;
}

}  // namespace wayfolio::evaluate
