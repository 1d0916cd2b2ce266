#include "evaluate/compensation/compensation.hpp"

#include "units/number_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {

namespace {

using units::shortest;

/// More points than this is a slip of the spacing, not a table that a control takes.
constexpr double most_points = 10'000;

/// "30 mm", but "30°": signs of angles stand close to their number.
std::string with_symbol(const std::string& number, std::string_view symbol) {
    return fmt::format("{}{}{}", number, symbol == "°" || symbol == "″" ? "" : " ", symbol);
}

std::string words_of(std::optional<Approach> approach) {
    if (!approach) return "both approaches";
    return fmt::format("the {} approach", word(*approach));
}

void refuse_range(std::vector<std::string>& reasons, const CompensationEvaluation& made, const ErrorCurve& curve) {
    const PositionUnit& unit = made.position_unit;
    const double first = curve.places.front().in(unit), last = curve.places.back().in(unit), range = last - first;
    const double reference = made.reference.in(unit), slack = 1e-9 * std::max(1.0, range);
    if (reference < first - slack || reference > last + slack)
        reasons.push_back(fmt::format("the reference {} lies outside the measured range {} to {}",
                                      with_symbol(shortest(reference), unit.symbol), shortest(first),
                                      with_symbol(shortest(last), unit.symbol)));
    else if (range / made.spacing > most_points)
        reasons.push_back(fmt::format("the spacing of {} would make more than {} points",
                                      with_symbol(shortest(made.spacing), unit.symbol), most_points));
    else if (table_places(made, curve).size() < 2)
        reasons.push_back(
            fmt::format("the spacing of {} leaves fewer than two points in the measured range {} to {}",
                        with_symbol(shortest(made.spacing), unit.symbol), shortest(first), with_symbol(shortest(last), unit.symbol)));
}

void refuse_readings(std::vector<std::string>& reasons, const CompensationEvaluation& made, const SeriesEvaluation& series) {
    for (const auto approach : approaches_of(made.kind)) {
        const ErrorCurve curve = error_curve(series, approach);
        if (curve.places.size() < 2) {
            reasons.push_back(fmt::format("fewer than two targets have readings in {}", words_of(approach)));
            continue;
        }
        const std::size_t before = reasons.size();
        refuse_range(reasons, made, curve);
        if (reasons.size() > before) return;
    }
}

double largest_gap(const CompensationEvaluation& made, const SeriesEvaluation& series) {
    double gap = 0;
    for (std::size_t i = 1; i < series.targets.size(); ++i)
        gap = std::max(gap,
                       series.targets[i].position.in(made.position_unit) - series.targets[i - 1].position.in(made.position_unit));
    return gap;
}

void remark_spacing(std::vector<std::string>& remarks, const CompensationEvaluation& made, const SeriesEvaluation& series) {
    const double gap = largest_gap(made, series), slack = 1e-9 * made.spacing;
    if (made.spacing < gap - slack)
        remarks.push_back(fmt::format("Points stand every {}, targets up to {} apart: between targets the table only interpolates.",
                                      with_symbol(shortest(made.spacing), made.position_unit.symbol),
                                      with_symbol(fmt::format("{:.6g}", gap), made.position_unit.symbol)));
    const auto& points = made.tables.front().points;
    if (points.front().position > series.targets.front().position || points.back().position < series.targets.back().position)
        remarks.push_back("Beyond its outermost points the table holds their value.");
}

void remark_values(std::vector<std::string>& remarks, const CompensationEvaluation& made, const SeriesEvaluation& series) {
    const bool nothing = std::all_of(made.tables.begin(), made.tables.end(), [&](const CompensationTable& table) {
        return std::all_of(table.points.begin(), table.points.end(),
                           [&](const auto& point) { return point.correction.in(made.unit) == 0; });
    });
    if (nothing) remarks.push_back("Every value rounds to 0: the errors are within half an increment.");
    if (!made.reversal) {
        remarks.push_back("Readings in one approach: the table has no reversal value, and the other approach is not predicted.");
        return;
    }
    double left = 0;
    for (const PredictedTarget& target : made.predicted_targets)
        if (target.means.positive && target.means.negative)
            left = std::max(left, units::abs(*target.means.positive - *target.means.negative).in(made.unit));
    if (left > made.increment / 2 * (1 + 1e-9))
        remarks.push_back(fmt::format("{} leaves a reversal value of up to {}.",
                                      made.kind == document::TableKind::Both ? "Rounding to the increment"
                                                                            : "One reversal value for the whole axis",
                                      with_symbol(fmt::format("{:.2g}", left), made.unit.symbol)));
    if (series.source == Source::Runs && made.kind == document::TableKind::Both)
        remarks.push_back("The reversal value is that at the reference; the two tables hold its change along the axis.");
}

}  // namespace

std::vector<std::optional<Approach>> approaches_of(document::TableKind kind) {
    switch (kind) {
        case document::TableKind::Bidirectional:
            return {std::nullopt};
        case document::TableKind::Positive:
            return {Approach::Positive};
        case document::TableKind::Negative:
            return {Approach::Negative};
        case document::TableKind::Both:
            break;
    }
    return {Approach::Positive, Approach::Negative};
}

std::vector<Position> table_places(const CompensationEvaluation& made, const ErrorCurve& curve) {
    const PositionUnit& unit = made.position_unit;
    const double reference = made.reference.in(unit), slack = 1e-9;
    const double first = std::ceil((curve.places.front().in(unit)-reference) / made.spacing - slack);
    const double last = std::floor((curve.places.back().in(unit)-reference) / made.spacing + slack);
    std::vector<Position> places;
    for (double k = first; k <= last; ++k) places.emplace_back(reference + k * made.spacing, unit);
    return places;
}

std::vector<std::string> refusals(const CompensationEvaluation& made, const SeriesEvaluation* series) {
    if (!series) return {fmt::format("there is no series \"{}\"", made.series)};
    std::vector<std::string> reasons;
    if (series->kind != SeriesKind::Positioning)
        reasons.push_back(fmt::format("a table is made from positioning, and {} is not", series->error.text()));
    if (series->error.axis != made.axis)
        reasons.push_back(fmt::format("the series \"{}\" is of axis {}, not {}", series->id, series->error.axis, made.axis));
    if (series->source == Source::Stated) reasons.emplace_back("the series has stated values only, no readings");
    if (!(made.spacing > 0)) reasons.emplace_back("the spacing must be above zero");
    if (!(made.increment > 0)) reasons.emplace_back("neither the request nor the machine names a least increment");
    if (reasons.empty()) refuse_readings(reasons, made, *series);
    return reasons;
}

std::vector<std::string> table_remarks(const CompensationEvaluation& made, const SeriesEvaluation& series) {
    std::vector<std::string> remarks;
    remark_spacing(remarks, made, series);
    remark_values(remarks, made, series);
    remarks.emplace_back("The table adds to whatever compensation was in use during the measurement.");
    return remarks;
}

}  // namespace wayfolio::evaluate
