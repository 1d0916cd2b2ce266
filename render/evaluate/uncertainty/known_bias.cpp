#include "evaluate/uncertainty/known_bias.hpp"

#include "evaluate/surroundings/surroundings.hpp"
#include "evaluate/uncertainty/combination_table.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {
namespace {

using Treatment = KnownBias::Treatment;

/// The contributor of the document that covers the bias of a series, or nullptr.
const document::Contributor* covering(const document::Document& document, const SeriesEvaluation& series, document::Influence influence) {
    for (const document::Contributor& contributor : document.uncertainty.contributors) {
        const auto& symbols = contributor.applies_to;
        if (contributor.influence == influence && std::find(symbols.begin(), symbols.end(), series.error.text()) != symbols.end())
            return &contributor;
    }
    return nullptr;
}

/// What a bias is held against: U(E), or E itself where there is no U.
double scale_um(const Evaluation& evaluation, const SeriesEvaluation& series) {
    if (const auto* entry = find_uncertainty(evaluation, series.id, "E")) return entry->expanded.in(units::micrometre);
    for (const char* name : {"E", "E_positive", "E_negative"})
        if (const Parameter* parameter = find_parameter(series, name))
            if (const Deviation* value = value_of(parameter->value)) return value->in(units::micrometre);
    return 0;
}

bool grows_with_length(const ParameterUncertainty& entry, const SeriesEvaluation& series) {
    return entry.series == series.id && !entry.axes && depends_on_length(entry.parameter);
}

Treatment treatment_of(const KnownBias& bias, const document::Document& document, const Evaluation& evaluation,
                       const SeriesEvaluation& series) {
    constexpr double tenth = 0.1;
    if (bias.influence == document::Influence::AirCorrection && series.air_correction && value_of(*series.air_correction))
        return Treatment::Corrected;
    if (covering(document, series, bias.influence)) return Treatment::InBudget;
    if (std::abs(bias.over_travel_um()) <= tenth * scale_um(evaluation, series)) return Treatment::Small;
    const bool ours = std::any_of(evaluation.uncertainty.begin(), evaluation.uncertainty.end(), [&](const auto& entry) {
        return grows_with_length(entry, series) && entry.source == Source::Runs;
    });
    return ours ? Treatment::Added : Treatment::Open;
}

/// Size of what is added over a length: effects in proportion to it with their signs, those of either sign with their size.
double size_um(const std::vector<const KnownBias*>& added, double length_m) {
    double proportional = 0, constant = 0;
    for (const KnownBias* bias : added) {
        proportional += bias->um_per_m * length_m;
        constant += bias->um;
    }
    return std::abs(proportional) + constant;
}

void widen(ScatterInterval& interval, const Deviation& by) {
    interval.low = std::max(interval.low - by, by * 0.0);
    interval.high = interval.high + by;
    interval.below = interval.below + by;
    interval.below_one_sided = interval.below_one_sided + by;
}

void enlarge(ParameterUncertainty& entry, const SeriesEvaluation& series, const std::vector<const KnownBias*>& added) {
    const Deviation size = units::micrometre(size_um(added, measured_travel_m(series)));
    entry.known_bias = size;
    entry.expanded = entry.expanded + size;
    const Parameter* parameter = find_parameter(series, entry.parameter);
    const auto distance = parameter ? longest_setting_distance_m(*parameter) : std::nullopt;
    if (entry.expanded_at_setting_targets && distance)
        entry.expanded_at_setting_targets = *entry.expanded_at_setting_targets + units::micrometre(size_um(added, *distance));
    if (entry.interval) widen(*entry.interval, size);
    std::vector<std::string> words;
    for (const KnownBias* bias : added)
        words.push_back(fmt::format("{} ({})", document::influence_name(bias->influence), bias->text()));
    entry.notes.push_back(fmt::format("Known over the travel and not corrected: {}. U is k u plus the size of it (GUM F.2.4.5).",
                                      fmt::join(words, ", ")));
}

void note_covered(Evaluation& evaluation, const document::Document& document, const KnownBias& bias) {
    const SeriesEvaluation& series = *find_series(evaluation, bias.series);
    const document::Contributor& contributor = *covering(document, series, bias.influence);
    for (ParameterUncertainty& entry : evaluation.uncertainty)
        if (grows_with_length(entry, series) && entry.source == Source::Runs)
            entry.notes.push_back(fmt::format("“{}” of the document counts {} ({} over the travel).", contributor.name,
                                              document::influence_name(bias.influence), bias.text()));
}

}  // namespace

void count_known_biases(Evaluation& evaluation, const document::Document& document) {
    evaluation.known_biases = known_biases(document);
    for (KnownBias& bias : evaluation.known_biases)
        bias.treatment = treatment_of(bias, document, evaluation, *find_series(evaluation, bias.series));
    for (const KnownBias& bias : evaluation.known_biases)
        if (bias.treatment == Treatment::InBudget) note_covered(evaluation, document, bias);
    for (const SeriesEvaluation& series : evaluation.series) {
        std::vector<const KnownBias*> added;
        for (const KnownBias& bias : evaluation.known_biases)
            if (bias.series == series.id && bias.treatment == Treatment::Added) added.push_back(&bias);
        if (added.empty()) continue;
        for (ParameterUncertainty& entry : evaluation.uncertainty)
            if (grows_with_length(entry, series) && entry.source == Source::Runs) enlarge(entry, series, added);
    }
}

}  // namespace wayfolio::evaluate
