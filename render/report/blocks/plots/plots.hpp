#pragma once
#include "report/model/model.hpp"
#include "report/words/judgements.hpp"
#include "report/words/record_time.hpp"

/// What the figures of a report show, in quantities and words; `plot` draws them.
namespace wayfolio::report {

/// The figure of one series as it is drawn: deviations of a positioning series as they are, straightness about the headline
/// reference line, angles about the mean of their readings (only differences have meaning there).
DeviationPlot deviation_plot(const document::Document& document, const document::Series& series,
                             const evaluate::SeriesEvaluation& evaluation, const Shown& shown);
/// The same with the verdict on its headline parameter in its alternative text.
DeviationPlot judged_plot(const Subject& subject, const SeriesView& view);
/// The extremes of a mean curve that is not empty, and its trend, in two sentences.
std::string curve_words(const std::vector<std::pair<Position, Deviation>>& curve, const Shown& shown);

/// The limit on a parameter that a bracket of the plot measures; nothing where there is none.
std::optional<LimitLines> limit_of(const document::Series& series, const std::string& parameter, const DeviationPlot& plot,
                                   const Shown& shown);

/// One run each way of a positioning series, for a figure on the rows of its readings; nothing for others, or where nothing can be drawn.
/// @param decimals  of means and reversal values
std::optional<OneRun> one_run(const Subject& subject, const SeriesView& view, int decimals);

/// A parameter along its axis, of the levels that `plot` draws: the band of A, both means of E, R and B at each target, else the mean.
/// Empty where the series has nothing to draw for it.
/// @param local  on a local straightness: the ends of its window are the dots; else nullptr is enough
RowCurve row_curve(const DeviationPlot& plot, const evaluate::SeriesEvaluation& evaluation, std::string_view parameter,
                   const evaluate::Decision* local);
/// What such a curve shows, for those who hear it; it is not empty.
std::string row_curve_words(const RowCurve& curve, const Shown& shown);

/// Notes on readings that took no part, in the order of the readings table (rising targets, positive first, then by run):
/// excluded and missing readings share one sequence of letters, a, b ... z, aa ...
struct ReadingNote {
    std::size_t run, target;  ///< places in the document
    std::string letter;
    std::optional<std::string> excluded_because;  ///< empty: missing
};
std::vector<ReadingNote> reading_notes(const document::Series& series, const evaluate::SeriesEvaluation& evaluation);

/// The environment record with the runs marked, the effect of the air on the longest linear axis, and the records at rest.
/// Nothing where fewer than two samples have a time.
std::optional<RecordPlot> environment_plot(const document::Document& document, const evaluate::Evaluation& evaluation,
                                           const ShownUnits& shown_in, units::NumberStyle style);

/// The means of the runs of a series over the clock, with air and material. Nothing where not every run says when it began and ended, or
/// no target was read in all of them.
std::optional<RunOrder> run_order(const Subject& subject, const SeriesView& view);

/// Every span of time in which something was read in one direction, once, in order of time. Series read in the same runs share their lanes.
std::vector<RunLane> run_lanes(const document::Document& document, const RecordClock& clock);
/// Series that were read over the same time, named by their state, by their errors, or by both: whatever tells them apart.
std::vector<Session> sessions(const document::Document& document, const RecordClock& clock);

/// The rule drawn for one decision: value with U, limit, guard bands and the verdict of every zone. Nothing where the decision has no
/// value, or a limit of 0.
std::optional<DecisionPicture> decision_picture(const Judgement& judgement);
/// Every decision in numbers: margin, margin after U, probability of conformity.
Section decision_table(const std::vector<Judgement>& all);

}  // namespace wayfolio::report
