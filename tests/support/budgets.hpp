#pragma once
#include "evaluate/series/angles.hpp"
#include "evaluate/series/positioning.hpp"
#include "evaluate/series/straightness.hpp"
#include "evaluate/uncertainty/uncertainty.hpp"
#include "support/documents.hpp"

#include <cmath>

/// A document with a budget that can be added up by hand, and its uncertainties.
namespace wayfolio::support {

inline document::Instrument laser() {
    document::Instrument instrument;
    instrument.id = "laser";
    instrument.certificate = "K 17";
    instrument.positioning = document::StatedCapability{0.2, 0.6};
    instrument.straightness = document::StatedCapability{0.4, 0.2};
    instrument.angle = document::StatedCapability{0.5, 0.1};
    instrument.coverage_factor = 2;
    return instrument;
}

/// Two targets 1 m apart: means 0 and 11 up (s 0 and sqrt 2), -1 and 10.9 down (s 0 and sqrt 8), two readings each way; no two places
/// tie. c = 0.1 um, a = 0.3 um/m, g = 0.3 um (nu 8), E_VE = 0.6 um, so d^2 = 0.03.
inline document::Document two_targets() {
    auto series = support::series("EXX", {0, 1000}, {{0, 10}, {0, 12}}, {{-1, 8.9}, {-1, 12.9}});
    series.instrument = "laser";
    auto document = support::document(series);
    document.instruments.push_back(laser());
    document::Contributor setup;
    setup.name = "set-up repeatability";
    setup.applies_to = {"EXX"};
    setup.value = 0.3;
    setup.unit = "um";
    setup.degrees_of_freedom = 8;
    document.uncertainty.contributors.push_back(setup);
    document.drift.push_back(
        {"X", "EXX", 0, {{"2026-05-11T08:00Z", 0.1}, {"2026-05-11T09:00Z", 0.7}, {"2026-05-11T10:00Z", 0.4}}});
    return document;
}

inline std::vector<evaluate::ParameterUncertainty> uncertainties(const document::Document& document) {
    std::vector<evaluate::SeriesEvaluation> all;
    for (const auto& series : document.series) {
        const auto kind = series.error.kind();
        all.push_back(kind == document::ErrorKind::Positioning    ? evaluate::evaluate_positioning(document, series)
                      : kind == document::ErrorKind::Straightness ? evaluate::evaluate_straightness(document, series)
                                                                 : evaluate::evaluate_angle(document, series));
    }
    return evaluate::evaluate_uncertainty(document, all);
}

inline const evaluate::ParameterUncertainty* find(const std::vector<evaluate::ParameterUncertainty>& all, std::string_view parameter) {
    for (const auto& entry : all)
        if (entry.parameter == parameter) return &entry;
    return nullptr;
}

inline double variance(const std::vector<evaluate::ParameterUncertainty>& all, std::string_view parameter,
                       const units::DeviationUnit& unit = units::micrometre) {
    return std::pow(find(all, parameter)->standard->in(unit), 2);
}

}  // namespace wayfolio::support
