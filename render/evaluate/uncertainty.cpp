#include "evaluate/uncertainty.hpp"

namespace wayfolio::evaluate {

std::optional<Deviation> stated_capability(const results::Document& document, const results::ErrorSymbol& error,
                                           std::string_view parameter) {
    if (!document.job.laboratory) return std::nullopt;
    for (const auto& entry : document.job.laboratory->capability)
        if (entry.error == error.text() && entry.parameter == parameter) return entry.expanded;
    return std::nullopt;
}

namespace {

ParameterUncertainty as_stated(const results::StatedUncertainty& stated) {
    ParameterUncertainty entry{.series = stated.series, .parameter = stated.parameter, .axes = {}, .length_mm = {},
                               .source = Source::Stated, .unit = stated.unit, .expanded = stated.expanded,
                               .standard = stated.expanded / stated.coverage_factor, .degrees_of_freedom = {}, .contributors = {},
                               .standard_at_setting_targets = {}, .expanded_at_setting_targets = {}, .monte_carlo = {}};
    entry.coverage_factor = stated.coverage_factor;
    return entry;
}

/// ILAC-P14:09/2020 clause 5 [from memory]: what is stated is never below the capability.
void raise_to_capability(ParameterUncertainty& entry, const std::optional<Deviation>& capability) {
    if (!capability || capability->dimension() != entry.expanded.dimension() || !(entry.expanded < *capability)) return;
    entry.expanded = *capability;
    entry.standard = *capability / entry.coverage_factor;
    entry.raised_to_capability = true;
}

}  // namespace

std::vector<ParameterUncertainty> evaluate_uncertainty(const results::Document& document, const std::vector<SeriesEvaluation>& series) {
    std::vector<ParameterUncertainty> entries;
    for (const results::StatedUncertainty& stated : document.uncertainty.stated) {
        ParameterUncertainty entry = as_stated(stated);
        for (const SeriesEvaluation& evaluated : series)
            if (evaluated.id == stated.series) raise_to_capability(entry, stated_capability(document, evaluated.error, stated.parameter));
        entries.push_back(std::move(entry));
    }
    return entries;
}

}  // namespace wayfolio::evaluate
