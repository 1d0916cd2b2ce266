#pragma once
#include "evaluate/evaluation.hpp"
#include "layouts/layout.hpp"
#include "report/words/shown.hpp"

/// The one place that decides in which units a document is shown.
namespace wayfolio::report {

/// One unit for each kind of quantity, on every page and in every figure of a document.
struct ShownUnits {
    DeviationUnit length = units::micrometre;  ///< deviations that are lengths
    DeviationUnit angle = units::microradian;  ///< angles of linear axes
    DeviationUnit rotary = units::arcsecond;   ///< angles of rotary axes
    DeviationUnit squareness = units::microradian;
    PositionUnit linear = units::position_millimetre;
};

/// What a layout names; else the unit in which the document first gives such a quantity, or that decimal multiple of it in which the
/// uncertainties have one to three digits before the point (the values, where no uncertainty is known): µm and mm, µin and in, 10⁻³ ° and
/// °.
ShownUnits shown_units(const document::Document& document, const evaluate::Evaluation& evaluation, const layouts::Layout& layout);

/// How a series whose values stand in `unit` is shown: its results in the unit it was evaluated in, its readings in that they were taken
/// in.
Shown shown_of(const ShownUnits& units, const document::Series& series, const DeviationUnit& unit, units::NumberStyle style);

}  // namespace wayfolio::report
