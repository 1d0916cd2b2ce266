#pragma once
#include "compare/comparison.hpp"
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

/// Tables that blocks hold, in final words: numbers stand as they are printed.
namespace wayfolio::report {

struct ParameterTable {
    std::vector<ParameterRow> rows;
    std::vector<Text> notes;  ///< numbered reasons for what is not evaluated, then what a dash means
};
/// Parameters of a positioning series: one direction, other direction, both, U, limit, targets that set them, verdict.
/// Older evaluations asked for follow under their own names.
ParameterTable parameter_table(const Subject& subject, const SeriesView& view);

/// Uncertainties that stand in no budget of the block and in no matrix: one direction, stated ones, squareness, headlines of other states.
/// @param shown_whole  entries whose budgets are shown
std::optional<Section> other_uncertainties(const Subject& subject, const std::vector<const evaluate::ParameterUncertainty*>& shown_whole);
/// First order against Monte Carlo (JCGM 101), where the document asks for it.
std::optional<Section> second_opinion(const Subject& subject);
/// What scatter adds to ranges and maxima and where they lie, wherever U alone would say too little; or why that is not known.
std::optional<Section> scatter_section(const Subject& subject);

// The environment in numbers. Each is nothing where the document gives nothing to say.

/// Index by both equations, their difference, the change over the record and the sensitivities, per metre and over each travel.
std::optional<Section> air_section(const Subject& subject);
/// Expansion of each axis from the reference temperature, with the coefficient and its uncertainty.
std::optional<Section> expansion_section(const Subject& subject);
/// What the instrument applied against what the record says, for each series that tells.
std::optional<Section> applied_section(const Subject& subject);
/// Records at rest: E_VE.
std::optional<Section> drift_section(const Subject& subject);
/// Lowest and highest of each recorded quantity. Needs a document with an environment.
PlainTable environment_table(const Subject& subject);
/// "2.31 µm/m" of a value in µm/m, with two decimals.
std::string per_metre(const Subject& subject, double um_per_m);

// Two results side by side.

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
/// How to read the tables of parameters, and which series have none that changed. Nothing where no series was compared.
std::optional<Section> results_section(const Subject& now, const compare::Comparison& changes);
/// Every squareness, old beside new. Nothing where none differs.
std::optional<Section> squareness_changes_section(const Subject& now, const compare::Comparison& changes);
/// Every result of one series, old beside new.
Section parameters_section(const Subject& now, const SeriesView& view, const compare::Comparison& changes);

}  // namespace wayfolio::report
