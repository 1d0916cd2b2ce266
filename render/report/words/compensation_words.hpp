#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

/// How a compensation table is written down: its numbers to the increment, its convention and its cautions.
namespace wayfolio::report {

/// A correction to the decimals of the table's increment, without its unit.
std::string correction_number(const Subject& subject, const evaluate::CompensationEvaluation& made, const Deviation& value);
/// A place of the table as the axis is commanded, without its unit; at most three decimals.
std::string place_number(const Subject& subject, const evaluate::CompensationEvaluation& made, const Position& place);

/// Series, kind, spacing, reference point, increment, reversal.
std::vector<Fact> table_facts(const Subject& subject, const evaluate::CompensationEvaluation& made);
/// The sign convention, then the table's largest value worked through with both positions.
std::vector<Text> convention(const Subject& subject, const evaluate::CompensationEvaluation& made);
/// What to check before loading and to do afterwards, then what this table cannot do.
std::vector<Text> table_cautions(const evaluate::CompensationEvaluation& made);
/// A sentence of the evaluation as a page prints it: with true minus signs.
std::string page_words(std::string sentence);
/// Position, absolute and incremental value of each point; of two tables side by side.
PlainTable points_table(const Subject& subject, const evaluate::CompensationEvaluation& made);

}  // namespace wayfolio::report
