#pragma once
#include "evaluate/numbers/budget.hpp"
#include "evaluate/evaluation.hpp"

/// What a document says of the uncertainty of one series: certificate, thermal state, drift and further contributors.
namespace wayfolio::evaluate {

/// A contributor as the document lists it. `component.standard` is in µm or µrad, or per metre of length.
struct Contributed {
    Component component;
    std::string correlated;  ///< contributors of one non-empty name are added before squaring
    bool per_metre = false;
};

/// Standard uncertainties in µm or µrad (per metre: µm/m or µrad/m). What the program adds by itself has an influence of the closed
/// set; a contributor of the document that names the same influence takes its place, and the notes say so.
struct SeriesContributors {
    std::optional<Component> instrument_constant, instrument_per_metre;
    std::vector<Contributed> listed;  ///< those of the document, and the expansion coefficient
    std::optional<Component> drift;   ///< of one reading: E_VE / (2 sqrt 3)
    std::vector<std::string> notes;

    /// A budget needs an instrument or listed contributors: scatter alone would understate.
    [[nodiscard]] bool enough() const { return instrument_constant || instrument_per_metre || !listed.empty(); }
};

/// Drift of one reading, by the records with the machine at rest that name the series' error: the largest.
std::optional<Component> drift_of(const document::Document& document, const SeriesEvaluation& series);

SeriesContributors contributors_of(const document::Document& document, const SeriesEvaluation& series);

/// The parts that act on a difference over `length_m`, independent of each other: the instrument's a L + c, a sum as certificates state
/// it, and every other contributor as the document says, p L or g. [derived, GUM; not the text of ISO 230-2 Annex A]
std::vector<Component> systematic_parts(const SeriesContributors& contributors, double length_m);

}  // namespace wayfolio::evaluate
