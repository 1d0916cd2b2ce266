#pragma once
#include "compare/comparison.hpp"
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// The numbers of one parameter on both sides as a page shows them: in the layout's unit, at the decimals that the smaller U deserves.
struct ChangeNumbers {
    std::string was, now, change, U_was, U_now, of_U;
};
ChangeNumbers change_numbers(const compare::ParameterChange& change, const Shown& shown);

/// "Reversal error B, mean"; "Local straightness over 300 mm, end-point chord"
Text parameter_title(const compare::ParameterChange& change, const SeriesView& view);
/// How the numbers of a change are shown; a squareness has no series, whose way it could be.
Shown shown_of_change(const compare::ParameterChange& change, const Subject& now);

/// Which two are compared, side by side.
Section sides_section(const Subject& was, const Subject& now);
/// What changed in the readings, the verdicts, and in data and settings.
std::vector<Section> changes_sections(const Subject& now, const compare::Comparison& changes);
/// How to read the tables of parameters, and which series have none that changed. No parts: no series was compared.
Section results_section(const Subject& now, const compare::Comparison& changes);
/// Every squareness, old beside new. No parts: none differs.
Section squareness_changes_section(const Subject& now, const compare::Comparison& changes);
/// Every result of one series, old beside new.
Section parameters_section(const Subject& now, const SeriesView& view, const compare::Comparison& changes);

}  // namespace wayfolio::report
