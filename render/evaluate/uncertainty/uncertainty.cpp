#include "evaluate/uncertainty/uncertainty.hpp"

#include "evaluate/uncertainty/combination_table.hpp"

#include <algorithm>

namespace wayfolio::evaluate {

std::optional<Deviation> stated_capability(const document::Document& document, const document::ErrorSymbol& error,
                                           std::string_view parameter) {
    if (!document.job.laboratory) return std::nullopt;
    for (const auto& entry : document.job.laboratory->capability)
        if (entry.error == error.text() && entry.parameter == parameter) return entry.expanded;
    return std::nullopt;
}

namespace {

ParameterUncertainty as_stated(const document::StatedUncertainty& stated) {
    ParameterUncertainty entry{.series = stated.series,
                               .parameter = stated.parameter,
                               .axes = {},
                               .length_mm = {},
                               .source = Source::Stated,
                               .unit = stated.unit,
                               .expanded = stated.expanded,
                               .standard = stated.expanded / stated.coverage_factor,
                               .degrees_of_freedom = {},
                               .contributors = {},
                               .standard_at_setting_targets = {},
                               .expanded_at_setting_targets = {},
                               .monte_carlo = {}};
    entry.coverage_factor = stated.coverage_factor;
    return entry;
}

DeviationUnit unit_of(const SeriesEvaluation& series, const Deviation& value) {
    if (value.dimension() == series.unit.dimension) return series.unit;
    return units::micrometre_per_metre;
}

bool is_stated(const document::Document& document, const std::string& series, std::string_view parameter) {
    const auto& stated = document.uncertainty.stated;
    return std::any_of(stated.begin(), stated.end(),
                       [&](const auto& entry) { return entry.series == series && entry.parameter == parameter; });
}

/// The entry of the budget whose tied place gives the largest U; nothing where nothing is to be combined.
std::optional<ParameterUncertainty> largest_entry(const document::Document& document, const SeriesEvaluation& series,
                                                  const std::vector<Parameter>& settings, const SeriesContributors& contributors,
                                                  const DeviationUnit& unit) {
    std::optional<ParameterUncertainty> largest;
    for (const Parameter& setting : settings) {
        const auto budget = budget_of(series, setting, contributors, measured_travel_m(series));
        // Equal readings and no drift record leave nothing to combine: that is no knowledge, not an uncertainty of 0.
        if (!budget || !(combine(*budget).standard > 0)) continue;
        ParameterUncertainty entry = computed(document, *budget, unit);
        if (largest && !(entry.expanded > largest->expanded)) continue;
        entry.notes = contributors.notes;
        for (auto& note : scatter_notes(series, setting)) entry.notes.push_back(std::move(note));
        largest = std::move(entry);
    }
    return largest;
}

std::optional<ParameterUncertainty> uncertainty_of(const document::Document& document, const SeriesEvaluation& series,
                                                   const Parameter& parameter, const SeriesContributors& contributors) {
    const Deviation* value = value_of(parameter.value);
    if (!value || is_stated(document, series.id, parameter.name)) return std::nullopt;
    const auto settings = settings_of(series, parameter, contributors);
    auto entry = largest_entry(document, series, settings, contributors, unit_of(series, *value));
    if (!entry) return std::nullopt;
    entry->series = series.id;
    entry->parameter = parameter.name;
    for (const Parameter& setting : settings) {
        const auto distance = setting_distance_m(setting);
        if (!distance || !depends_on_length(parameter.name)) continue;
        if (const auto there = budget_of(series, setting, contributors, *distance)) add_at_setting_targets(*entry, document, *there);
    }
    return entry;
}

void add_local(std::vector<ParameterUncertainty>& entries, const document::Document& document, const SeriesEvaluation& series,
               const SeriesContributors& contributors) {
    if (is_stated(document, series.id, "local")) return;
    std::optional<units::Length> last;
    for (const LocalStraightness& local : series.local) {
        if (last == local.window) continue;
        last = local.window;
        ParameterUncertainty entry =
            computed(document, local_budget(series, contributors, local.window.in(units::metre)), series.unit);
        entry.series = series.id;
        entry.parameter = "local";
        entry.length_mm = local.window.in(units::millimetre);
        entry.notes = contributors.notes;
        entries.push_back(std::move(entry));
    }
}

void add_stated(std::vector<ParameterUncertainty>& entries, const document::Document& document, const SeriesEvaluation& series) {
    for (const document::StatedUncertainty& stated : document.uncertainty.stated)
        if (stated.series == series.id) entries.push_back(as_stated(stated));
}

/// Heights by angle steps have no line in the table: their angles add up along the chain.
bool has_budget(const SeriesEvaluation& series, const SeriesContributors& contributors) {
    return series.source == Source::Runs && series.kind != SeriesKind::AngleSteps && contributors.enough();
}

void add_computed(std::vector<ParameterUncertainty>& entries, const document::Document& document, const SeriesEvaluation& series,
                  const SeriesContributors& contributors) {
    for (const Parameter& parameter : series.parameters)
        if (auto entry = uncertainty_of(document, series, parameter, contributors)) entries.push_back(*std::move(entry));
    add_local(entries, document, series, contributors);
}

}  // namespace

std::vector<ParameterUncertainty> evaluate_uncertainty(const document::Document& document,
                                                       const std::vector<SeriesEvaluation>& series) {
    std::vector<ParameterUncertainty> entries;
    for (const SeriesEvaluation& evaluated : series) {
        const std::size_t first = entries.size();
        add_stated(entries, document, evaluated);
        const SeriesContributors contributors = contributors_of(document, evaluated);
        if (has_budget(evaluated, contributors)) add_computed(entries, document, evaluated, contributors);
        const auto own = std::span(entries).subspan(first);
        // Of the budget's own U; the interval of the one that is printed.
        add_second_opinion(own, document, evaluated, contributors);
        for (ParameterUncertainty& entry : own) {
            raise_to_capability(entry, stated_capability(document, evaluated.error, entry.parameter));
            add_interval(entry, evaluated, contributors);
        }
    }
    add_squareness_uncertainty(entries, document, series);
    return entries;
}

}  // namespace wayfolio::evaluate
