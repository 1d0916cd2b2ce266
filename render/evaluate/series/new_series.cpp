#include "evaluate/series/new_series.hpp"

#include "evaluate/series/stated.hpp"
#include "evaluate/series/targets.hpp"

namespace wayfolio::evaluate {
namespace {

std::vector<ExcludedReading> excluded_readings(const document::Series& series) {
    std::vector<ExcludedReading> excluded;
    for (std::size_t run = 0; run < series.runs.size(); ++run)
        for (const auto& exclusion : series.runs[run].excluded) excluded.push_back({run, exclusion.target, exclusion.reason});
    return excluded;
}

/// A reading both null and excluded counts as excluded.
std::vector<MissingReading> missing_readings(const document::Series& series) {
    std::vector<MissingReading> missing;
    for (std::size_t run = 0; run < series.runs.size(); ++run) {
        const auto& readings = series.runs[run].deviations;
        for (std::size_t target = 0; target < readings.size(); ++target)
            if (!readings[target] && series.runs[run].exclusion(target) == nullptr) missing.push_back({run, target});
    }
    return missing;
}

}  // namespace

Source source_of(const document::Series& series) {
    const bool only_stated = series.runs.empty() && !(series.stated.empty() && series.stated_targets.empty());
    return only_stated ? Source::Stated : Source::Runs;
}

SeriesKind kind_of(const document::Series& series) {
    if (series.steps_base_mm) return SeriesKind::AngleSteps;
    switch (series.error.kind()) {
        case document::ErrorKind::Straightness:
            return SeriesKind::Straightness;
        case document::ErrorKind::Angle:
            return SeriesKind::Angle;
        case document::ErrorKind::Positioning:
            break;
    }
    return SeriesKind::Positioning;
}

std::string_view standard_name(document::Standard standard) {
    switch (standard) {
        case document::Standard::Iso230_2_1997:
            return "ISO 230-2:1997";
        case document::Standard::Iso230_2_2006:
            return "ISO 230-2:2006";
        case document::Standard::Iso230_2_2014:
            break;
    }
    return "ISO 230-2:2014";
}

SeriesEvaluation new_series(const document::Document& document, const document::Series& series) {
    const auto kind = kind_of(series);
    const auto edition = standard_name(document.evaluation.standard.value_or(document::Standard::Iso230_2_2014));
    const auto source = source_of(series);
    return {.id = series.id,
            .state = series.state,
            .standard = std::string(kind == SeriesKind::Positioning ? edition : "ISO 230-1:2012"),
            .error = series.error,
            .kind = kind,
            .source = source,
            .unit = series.unit,
            .position_unit = series.position_unit,
            .targets = source == Source::Stated ? stated_targets(series) : evaluate_targets(series),
            .excluded = excluded_readings(series),
            .missing = missing_readings(series)};
}

}  // namespace wayfolio::evaluate
