#pragma once
#include "compare/comparison.hpp"
#include "report/model/model.hpp"
#include "report/words/subject.hpp"
#include "report/words/uncertainty/uncertainty_results.hpp"

/// Tables that blocks hold, in final words: numbers stand as they are printed.
namespace wayfolio::report {

struct ParameterTable {
    std::vector<ParameterRow> rows;
    std::vector<Text> notes;  ///< numbered reasons for what is not evaluated, then what a dash means
};
/// Parameters of a positioning series: one direction, other direction, both, U, limit, targets that set them, verdict.
/// Older evaluations asked for follow under their own names.
ParameterTable parameter_table(const Subject& subject, const SeriesView& view);

/// Two straightness series of one axis, row by row beside each other, each value with its U where there is one; nothing for other panels.
std::optional<PlainTable> joint_straightness(const Subject& subject, const std::vector<SeriesView>& views);
/// "end-point line"
std::string reference_line_words(document::ReferenceLine line);

/// Each result with its U, how that reaches towards the limit, and what it is made of.
std::vector<UncertaintyRow> uncertainty_rows(const Subject& subject, const std::vector<UncertainResult>& results);
/// What U covers where that is too little, what random variation adds to ranges, and what else a reader of the rows must know.
std::vector<Text> uncertainty_rows_notes(const Subject& subject, const std::vector<UncertainResult>& results);
/// What each contributor brings to each result that has a limit or speaks for its quantity, expanded; missing ones stay as rows. Several
/// tables where there are many results.
std::vector<ContributorTable> contributor_tables(const Subject& subject, const std::vector<UncertainResult>& results);
/// Correlations, and what the budgets say of themselves, each once.
std::vector<Text> contributor_notes(const std::vector<UncertainResult>& results);
/// First order against Monte Carlo (JCGM 101), where the document asks for it.
std::optional<Section> second_opinion(const Subject& subject);
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

/// How many parameters differ and how many verdicts changed, the one verdict by name; then what changed most against its uncertainty.
Text comparison_lead(const Subject& now, const compare::Comparison& changes);
Text comparison_body(const Subject& now, const compare::Comparison& changes);

/// Which two are compared, side by side.
Section sides_section(const Subject& was, const Subject& now);
/// Causes of what changed; nothing where they are not known.
using Causes = std::optional<std::vector<compare::Cause>>;
/// What changed in the data and in the readings, numbered through, and what that did to the results.
std::vector<Section> changes_sections(const Subject& was, const Subject& now, const compare::Comparison& changes, const Causes& causes);
/// What speaks for a quantity or has a limit, old beside new with both verdicts and the numbers of the changes that moved it; what did not
/// change in grey. Nothing where no series was compared.
std::optional<Section> headline_changes_section(const Subject& now, const compare::Comparison& changes, const Causes& causes);
/// How to read the tables of parameters, and which series have none that changed. Nothing where no series was compared.
std::optional<Section> results_section(const Subject& now, const compare::Comparison& changes);
/// What else is to be said of two results: the verdicts that changed, what is set beside what, how to read the tables, which two they are.
std::vector<Section> compared_sections(const Subject& was, const Subject& now, const compare::Comparison& changes);
/// Every squareness, old beside new. Nothing where none differs.
std::optional<Section> squareness_changes_section(const Subject& now, const compare::Comparison& changes);
/// Every result of one series, old beside new.
Section parameters_section(const Subject& now, const SeriesView& view, const compare::Comparison& changes);

}  // namespace wayfolio::report
