#include "evaluate/series/geometry/geometry.hpp"

#include <algorithm>

namespace wayfolio::evaluate {

namespace {

constexpr std::string_view found_state = "as-found", left_state = "as-left";

/// Series whose lines are both known can only be compared on the same line.
bool same_line(const document::Document& document, const std::string& a, const std::string& b) {
    const document::Series* first = document::find_series(document, a);
    const document::Series* second = document::find_series(document, b);
    const document::MeasurementLine* of_first = first ? document::measurement_line(document, *first) : nullptr;
    const document::MeasurementLine* of_second = second ? document::measurement_line(document, *second) : nullptr;
    return !of_first || !of_second || of_first == of_second;
}

FoundAgainstLeft against(const SeriesEvaluation& found, const SeriesEvaluation& left) {
    FoundAgainstLeft comparison{.found = found.id, .left = left.id, .error = left.error, .unit = left.unit, .parameters = {}};
    for (const Parameter& after : left.parameters) {
        const Parameter* before = find_parameter(found, after.name);
        if (!before || before->reference_line != after.reference_line) continue;
        const Deviation* from = value_of(before->value);
        const Deviation* to = value_of(after.value);
        if (from && to && from->dimension() == to->dimension())
            comparison.parameters.push_back({after.name, *from, *to, *to - *from});
    }
    return comparison;
}

bool is_in_state(const SquarenessEvaluation& squareness, const std::vector<SeriesEvaluation>& series, std::string_view state) {
    return std::all_of(squareness.series.begin(), squareness.series.end(), [&](const std::string& id) {
        const SeriesEvaluation* one = find_series(series, id);
        return one && one->state == state;
    });
}

}  // namespace

std::vector<SquarenessFoundAgainstLeft> found_against_left(const std::vector<SquarenessEvaluation>& squareness,
                                                           const std::vector<SeriesEvaluation>& series) {
    std::vector<SquarenessFoundAgainstLeft> all;
    for (std::size_t left = 0; left < squareness.size(); ++left) {
        const auto* after = value_of(squareness[left].value);
        if (!after || !is_in_state(squareness[left], series, left_state)) continue;
        for (std::size_t found = 0; found < squareness.size(); ++found) {
            const auto* before = value_of(squareness[found].value);
            if (!before || squareness[found].axes != squareness[left].axes) continue;
            if (!is_in_state(squareness[found], series, found_state)) continue;
            all.push_back({found, left, {"squareness", Deviation(*before), Deviation(*after), Deviation(*after - *before)}});
            break;
        }
    }
    return all;
}

std::vector<FoundAgainstLeft> found_against_left(const document::Document& document, const std::vector<SeriesEvaluation>& series) {
    std::vector<FoundAgainstLeft> all;
    for (const SeriesEvaluation& left : series) {
        if (left.state != left_state) continue;
        const auto found = std::find_if(series.begin(), series.end(), [&](const SeriesEvaluation& each) {
            return each.state == found_state && each.error == left.error && each.kind == left.kind &&
                   same_line(document, each.id, left.id);
        });
        if (found != series.end()) all.push_back(against(*found, left));
    }
    return all;
}

}  // namespace wayfolio::evaluate
