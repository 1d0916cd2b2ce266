#include "evaluate/review/lacking.hpp"
#include "document/states.hpp"
#include "evaluate/numbers/air_index.hpp"
#include "evaluate/series/new_series.hpp"
#include "evaluate/surroundings/wavelength.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::evaluate {
namespace {

using document::Document;

/// What a series asks of its instrument's certificate.
struct Certified {
    const char* word;
    const std::optional<document::StatedCapability>& stated;
};

Certified certified_for(const document::Instrument& instrument, const document::Series& series) {
    const Certified angle{"angle", instrument.angle};
    switch (kind_of(series)) {
        case SeriesKind::Positioning:
            if (series.error.axis_is_rotary()) return angle;  // positions of a rotary axis are angles
            return {"positioning", instrument.positioning};
        case SeriesKind::Straightness:
            return {"straightness", instrument.straightness};
        case SeriesKind::Angle:
        case SeriesKind::AngleSteps:
            break;  // steps are read by an instrument for angles
    }
    return angle;
}

bool uncertainty_is_stated(const Document& document, const std::string& series) {
    for (const auto& stated : document.uncertainty.stated)
        if (stated.series == series) return true;
    return false;
}

/// Whether a contributor of the document takes the place of what the program would count by itself: then nothing of it is missing.
bool is_covered(const Document& document, const document::Series& series, document::Influence influence) {
    const auto& all = document.uncertainty.contributors;
    return std::any_of(all.begin(), all.end(), [&](const document::Contributor& contributor) {
        const auto& symbols = contributor.applies_to;
        return contributor.influence == influence && std::find(symbols.begin(), symbols.end(), series.error.text()) != symbols.end();
    });
}

/// What the budget of a series takes from its instrument.
void add_lacking_instrument(std::vector<Lack>& lacking, const Document& document, std::size_t place) {
    const auto& series = document.series[place];
    const auto* instrument = document::find_instrument(document, series.instrument);
    if (instrument == nullptr) {
        lacking.push_back(
            {"uncertainty", fmt::format("instrument of {}", name_of_series(series)), fmt::format("/series/{}/instrument", place)});
        return;
    }
    const auto at = static_cast<std::size_t>(instrument - document.instruments.data());
    const Certified certified = certified_for(*instrument, series);
    if (!certified.stated)
        lacking.push_back({"uncertainty",
                           fmt::format("expanded uncertainty of {} for {}", name_of_instrument(*instrument), certified.word),
                           fmt::format("/instruments/{}/expanded_uncertainty/{}", at, certified.word)});
    else if (!instrument->coverage_factor)
        lacking.push_back({"uncertainty", fmt::format("coverage factor of {}", name_of_instrument(*instrument)),
                           fmt::format("/instruments/{}/coverage_factor", at)});
}

bool has_drift_record(const Document& document, const std::string& axis) {
    for (const auto& record : document.drift)
        if (record.axis == axis) return true;
    return false;
}

/// What the thermal part of a length along a linear axis needs.
void add_lacking_thermal(std::vector<Lack>& lacking, const Document& document, const document::Series& series) {
    const std::string& name = series.error.axis;
    const auto* axis = document::find_axis(document, name);
    if (is_covered(document, series, document::Influence::ExpansionCoefficient)) return;
    if (axis == nullptr || !axis->expansion)
        lacking.push_back({"uncertainty", fmt::format("expansion coefficient of axis {}", name), "/machine/axes"});
    else if (!axis->expansion->expanded_uncertainty)
        lacking.push_back(
            {"uncertainty", fmt::format("uncertainty of the expansion coefficient of axis {}", name), "/machine/axes"});
    bool machine_temperature = false;
    if (document.environment)
        for (const auto& sample : document.environment->samples)
            machine_temperature = machine_temperature || !sample.machine_C.empty();
    if (!machine_temperature) lacking.push_back({"uncertainty", "temperatures of the machine", "/environment/samples"});
}

}  // namespace

void add_lacking_for_decision(std::vector<Lack>& lacking, const Document& document) {
    bool tolerances = false;
    for (std::size_t i = 0; i < document.series.size(); ++i) {
        const auto& series = document.series[i];
        if (series.tolerances.empty())
            lacking.push_back({"decision", fmt::format("limits for {}", name_of_series(series)), fmt::format("/series/{}/tolerances", i)});
        for (std::size_t j = 0; j < series.tolerances.size(); ++j) {
            tolerances = true;
            if (series.tolerances[j].source.empty())
                lacking.push_back({"decision",
                                   fmt::format("source of the limit on {} of {}", series.tolerances[j].parameter, name_of_series(series)),
                                   fmt::format("/series/{}/tolerances/{}/source", i, j)});
        }
    }
    // ISO/IEC 17025:2017 7.8.6: a statement of conformity names its rule.
    if (tolerances && !document.evaluation.decision_rule)
        lacking.push_back({"ISO/IEC 17025 7.8.6", "decision rule", "/evaluation/decision_rule"});
}

void add_lacking_for_uncertainty(std::vector<Lack>& lacking, const Document& document) {
    for (const auto* instrument : wavelength_assumed(document))
        lacking.push_back({"uncertainty",
                           fmt::format("vacuum wavelength of {}; {} nm is assumed", name_of_instrument(*instrument), helium_neon_nm),
                           fmt::format("/instruments/{}/vacuum_wavelength_nm", instrument - document.instruments.data())});
    for (std::size_t i = 0; i < document.series.size(); ++i) {
        const auto& series = document.series[i];
        if (uncertainty_is_stated(document, series.id)) continue;
        if (!is_covered(document, series, document::Influence::Instrument)) add_lacking_instrument(lacking, document, i);
        // A drift record holds lengths: of a rotary axis or an angle there can be none.
        const bool drift = has_drift_record(document, series.error.axis) || is_covered(document, series, document::Influence::Drift);
        if (series.unit.dimension == units::Dimension::Length && !drift)
            lacking.push_back({"uncertainty", fmt::format("drift record of axis {} at rest", series.error.axis), "/drift"});
        if (kind_of(series) == SeriesKind::Positioning && !series.error.axis_is_rotary())
            add_lacking_thermal(lacking, document, series);
    }
}

}  // namespace wayfolio::evaluate
