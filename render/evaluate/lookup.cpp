#include "evaluate/evaluation.hpp"
#include "units/number_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {

std::string KnownBias::text() const {
    const double um = over_travel_um(), size = std::abs(um);
    const std::string number = units::number(um, size > 0 ? std::max(0, units::decimals_for_uncertainty(size)) : 0);
    return (um > 0 ? "+" : "") + number + " µm";
}

Deviation SeriesEvaluation::air_at(const Position& place) const {
    const AirTakenOff* air = air_correction ? value_of(*air_correction) : nullptr;
    if (!air) return {0, unit};
    return units::micrometre(-air->um_per_m * (place - air->zero).in(units::metre));
}

namespace {

template <class Range, class Predicate>
auto find_in(const Range& range, Predicate matches) -> decltype(&*range.begin()) {
    const auto found = std::find_if(range.begin(), range.end(), matches);
    return found == range.end() ? nullptr : &*found;
}

}  // namespace

const ReferenceLineResult* headline_line(const SeriesEvaluation& series) {
    const Parameter* const headline = find_parameter(series, "straightness");
    for (const ReferenceLineResult& line : series.lines)
        if (headline == nullptr || headline->reference_line == line.kind) return &line;
    return nullptr;
}

const Parameter* find_parameter(const SeriesEvaluation& series, std::string_view name) {
    return find_in(series.parameters, [&](const Parameter& parameter) { return parameter.name == name; });
}

const SeriesEvaluation* find_series(std::span<const SeriesEvaluation> all, std::string_view id) {
    return find_in(all, [&](const SeriesEvaluation& series) { return series.id == id; });
}

const SeriesEvaluation* find_series(const Evaluation& evaluation, std::string_view id) { return find_series(evaluation.series, id); }

const ParameterUncertainty* find_uncertainty(const Evaluation& evaluation, std::string_view series, std::string_view parameter) {
    return find_in(evaluation.uncertainty,
                   [&](const ParameterUncertainty& entry) { return entry.series == series && entry.parameter == parameter; });
}

const ParameterUncertainty* find_uncertainty(const Evaluation& evaluation, const SquarenessEvaluation& squareness) {
    return find_in(evaluation.uncertainty, [&](const ParameterUncertainty& entry) {
        return entry.axes == squareness.axes && entry.series == squareness.series[0];
    });
}

}  // namespace wayfolio::evaluate
