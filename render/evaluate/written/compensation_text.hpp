#pragma once
#include "document/document.hpp"
#include "evaluate/compensation_evaluation.hpp"

/// Compensation tables as files in our own plain format, for reading and for conversion to what a control takes.
namespace wayfolio::evaluate {

/// The sign convention with the table's largest value worked through, one plain sentence. Empty for a refused table.
std::string worked_line(const CompensationEvaluation& compensation);

/// What must be done around loading a table, plain sentences.
std::vector<std::string> compensation_cautions();

/// A value of a table without the dust of binary arithmetic: 3 steps of 0.1 are 0.3.
double table_number(double value);

/// The table in our own plain format: a head of lines that begin with "#" (what it is, units, convention, cautions, prediction),
/// then CSV with position, correction and change; of two tables side by side. UTF-8, LF. A refused table has its
/// reasons in the head only.
std::string compensation_csv(const CompensationEvaluation& compensation, const document::Document& document);

/// The same as JSON: "cautions" and "convention" stand before the numbers; the keys of the table are those of the evaluation.
std::string compensation_json_file(const CompensationEvaluation& compensation, const document::Document& document);

}  // namespace wayfolio::evaluate
