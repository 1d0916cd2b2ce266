#include "evaluate/series/geometry/geometry.hpp"

#include "evaluate/series/mean_trace.hpp"
#include "evaluate/numbers/reference_lines.hpp"
#include "evaluate/series/straightness.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::evaluate {

namespace {

using document::ReferenceLine;

/// A pair of axes in the order of ISO 841, and the squareness between them.
struct Pair {
    std::string_view first, second, symbol;
    double sign;  ///< of slopes and square in the value: a rotation about Y closes the quadrant, about X and Z opens it
};
constexpr std::array pairs{Pair{"X", "Y", "EC0Y", 1}, Pair{"X", "Z", "EB0Z", -1}, Pair{"Y", "Z", "EA0Z", 1}};

const Pair* pair_of(const std::array<std::string, 2>& axes) {
    for (const Pair& pair : pairs)
        if ((axes[0] == pair.first && axes[1] == pair.second) || (axes[1] == pair.first && axes[0] == pair.second)) return &pair;
    return nullptr;
}

/// The series must be the straightness of one axis in the direction of the other.
std::optional<NotEvaluated> unfit(const SeriesEvaluation* series, const std::string& id, std::string_view axis,
                                  std::string_view direction) {
    if (!series) return NotEvaluated{fmt::format("the series \"{}\" is not evaluated", id)};
    const std::string wanted = fmt::format("E{}{}", direction, axis);
    if (series->error.text() != wanted)
        return NotEvaluated{fmt::format("the series \"{}\" is {}, not {}", id, series->error.text(), wanted)};
    if (series->source == Source::Stated || mean_trace(*series).x.size() < 2)
        return NotEvaluated{fmt::format("the series \"{}\" has no slope", id)};
    return std::nullopt;
}

SquarenessByLine by_line(ReferenceLine kind, const SeriesEvaluation& first, const SeriesEvaluation& second, double sign,
                         double square_urad) {
    const auto slope = [&](const SeriesEvaluation& series) {
        const MeanTrace trace = mean_trace(series);
        return units::micrometre_per_metre(reference_line(kind, trace).slope * 1e3);
    };
    const units::Angle one = slope(first), two = slope(second);
    return {kind, one, two, (units::microradian(square_urad) - one - two) * sign};
}

SquarenessEvaluation squareness_of(const document::Document& document, const document::SquarenessRequest& request,
                                  const std::vector<SeriesEvaluation>& series) {
    SquarenessEvaluation made{.axes = request.axes,
                              .series = request.series,
                              .symbol = {},
                              .reference_line = headline_line(document),
                              .value = NotEvaluated{},
                              .beyond_right_angle = {},
                              .square_error = {},
                              .square_serial = request.square_serial,
                              .lines = {}};
    const Pair* pair = pair_of(request.axes);
    if (!pair) {
        made.value =
            NotEvaluated{fmt::format("no squareness is defined here between {} and {}", request.axes[0], request.axes[1])};
        return made;
    }
    made.symbol = pair->symbol;
    const SeriesEvaluation* first = find_series(series, request.series[0]);
    const SeriesEvaluation* second = find_series(series, request.series[1]);
    for (const auto& why : {unfit(first, request.series[0], request.axes[0], request.axes[1]),
                            unfit(second, request.series[1], request.axes[1], request.axes[0])}) {
        if (!why) continue;
        made.value = *why;
        return made;
    }
    if (request.square_error_urad) made.square_error = units::microradian(*request.square_error_urad);
    for (const ReferenceLine kind : {ReferenceLine::EndPoint, ReferenceLine::LeastSquares, ReferenceLine::MinimumZone}) {
        made.lines.push_back(by_line(kind, *first, *second, pair->sign, request.square_error_urad.value_or(0)));
        if (kind != made.reference_line) continue;
        made.value = made.lines.back().value;
        made.beyond_right_angle = made.lines.back().value * pair->sign;
    }
    return made;
}

}  // namespace

std::vector<SquarenessEvaluation> evaluate_squareness(const document::Document& document,
                                                      const std::vector<SeriesEvaluation>& series) {
    std::vector<SquarenessEvaluation> all;
    for (const document::SquarenessRequest& request : document.squareness) all.push_back(squareness_of(document, request, series));
    return all;
}

}  // namespace wayfolio::evaluate
