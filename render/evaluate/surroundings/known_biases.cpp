#include "evaluate/surroundings/surroundings.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {
namespace {

using document::Influence;

bool has_lengths(const document::Series& series) {
    return series.error.kind() == document::ErrorKind::Positioning && !series.error.axis_is_rotary() && !series.runs.empty();
}

double travel_of(const document::Series& series) {
    const auto [low, high] = std::minmax_element(series.targets.begin(), series.targets.end(),
                                                 [](const auto& a, const auto& b) { return a.position < b.position; });
    return (high->position - low->position).in(units::metre);
}

const double* number_in(const std::optional<Evaluated<double>>& evaluated) { return evaluated ? value_of(*evaluated) : nullptr; }

}  // namespace

std::vector<KnownBias> known_biases(const document::Document& document) {
    std::vector<KnownBias> all;
    const auto applied = evaluate_applied(document);
    const auto cosines = evaluate_cosine(document);
    for (const document::Series& series : document.series) {
        if (!has_lengths(series) || series.targets.empty()) continue;
        const auto add = [&](Influence influence, double um_per_m, double um) {
            if (um_per_m == 0 && um == 0) return;
            all.push_back({.series = series.id, .influence = influence, .um_per_m = um_per_m, .um = um, .travel_m = travel_of(series)});
        };
        for (const AppliedCorrection& taken : applied) {
            if (taken.series != series.id) continue;
            if (const double* air = number_in(taken.air_um_per_m)) add(Influence::AirCorrection, *air, 0);
            // Readings that are said to be uncorrected hold for the temperature of the test: that is what they state, not an error.
            if (const double* expansion = number_in(taken.expansion_um_per_m); expansion && series.expansion_correction->applied)
                add(Influence::ExpansionCorrection, *expansion, 0);
            if (const double* dead_path = number_in(taken.dead_path_um)) add(Influence::DeadPath, 0, std::abs(*dead_path));
        }
        for (const CosineError& cosine : cosines)
            if (cosine.axis == series.error.axis && cosine.resolved) add(Influence::Cosine, -cosine.um_per_m, 0);
    }
    return all;
}

std::optional<Evaluated<AirTakenOff>> air_to_take_off(const document::Document& document, const document::Series& series) {
    if (!document.evaluation.air_correction || !has_lengths(series) || series.targets.empty()) return std::nullopt;
    for (const AppliedCorrection& applied : evaluate_applied(document)) {
        if (applied.series != series.id || !applied.air_um_per_m) continue;
        if (const double* um_per_m = number_in(applied.air_um_per_m)) return AirTakenOff{*um_per_m, series.targets.front().position};
        return std::get<NotEvaluated>(*applied.air_um_per_m);
    }
    return NotEvaluated{"the document does not say what air the instrument took"};
}

}  // namespace wayfolio::evaluate
