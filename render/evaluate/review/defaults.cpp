#include "evaluate/review/cautions.hpp"
#include "document/states.hpp"
#include "evaluate/series/new_series.hpp"
#include "evaluate/surroundings/environment_record.hpp"
#include "evaluate/surroundings/wavelength.hpp"

#include <fmt/format.h>
#include <algorithm>

namespace wayfolio::evaluate {
namespace {

template <class Predicate>
bool any_series(const document::Document& document, Predicate holds) {
    return std::any_of(document.series.begin(), document.series.end(), holds);
}

bool is_straightness(const document::Series& series) {
    const auto kind = kind_of(series);
    return kind == SeriesKind::Straightness || kind == SeriesKind::AngleSteps;
}

std::string series_without_sign(const document::Document& document) {
    std::vector<std::string> ids;
    for (const auto& series : document.series)
        if (!series.sign_stated && !series.runs.empty()) ids.push_back(name_of_series(series));
    return fmt::format("{}", fmt::join(ids, "; "));
}

/// Empty where the wavelength is stated, or the record gives no index of the air.
std::string wavelength_sentence(const document::Document& document) {
    if (!mean_air(all_samples(document)) || (wavelength_of_record(document).stated && wavelength_assumed(document).empty())) return {};
    std::vector<std::string> names;
    for (const auto* instrument : wavelength_assumed(document)) names.push_back(name_of_instrument(*instrument));
    return fmt::format("No vacuum wavelength stated{}: {} nm (helium-neon) is assumed for the refractive index of air.",
                       names.empty() ? "" : fmt::format(" for {}", fmt::join(names, ", ")), helium_neon_nm);
}

}  // namespace

std::vector<std::string> defaults_used(const document::Document& document, HasUncertainty uncertainty) {
    const auto& asked = document.evaluation;
    std::vector<std::string> sentences;
    if (!asked.standard && any_series(document, [](const auto& series) { return kind_of(series) == SeriesKind::Positioning; }))
        sentences.emplace_back("No edition named: positioning is evaluated by ISO 230-2:2014.");
    if (const auto ids = series_without_sign(document); !ids.empty())
        sentences.push_back(fmt::format("No sign named in {}: readings are taken as actual minus target.", ids));
    if (const auto air = wavelength_sentence(document); !air.empty()) sentences.push_back(air);
    if (!asked.straightness_reference && any_series(document, is_straightness))
        sentences.emplace_back("No reference line named: straightness is given about the least-squares line.");
    if (!asked.local_straightness_mm && any_series(document, is_straightness))
        sentences.emplace_back(
            "No lengths named: local straightness is given over 300 mm, and over 1 000 mm from 2 000 mm of travel on.");
    if (!asked.decision_rule && any_series(document, [](const auto& series) { return !series.tolerances.empty(); }))
        sentences.emplace_back(
            "No decision rule named: simple acceptance, up to the limit and without regard to the uncertainty.");
    const bool stated = uncertainty == HasUncertainty::Yes;
    if (stated && !asked.coverage) sentences.emplace_back("No coverage named: expanded uncertainties are given with k = 2.");
    if (stated && !asked.monte_carlo) sentences.emplace_back("No Monte Carlo asked for: uncertainties are propagated to first order only.");
    if (!asked.hints)
        sentences.emplace_back("Hints not switched off: the readings are tested for hints, which change no result.");
    return sentences;
}

}  // namespace wayfolio::evaluate
