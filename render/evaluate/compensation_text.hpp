#pragma once
#include "evaluate/compensation.hpp"

namespace wayfolio::evaluate {

/// The sign convention with the table's largest value worked through, one plain sentence. Empty for a refused table.
std::string worked_line(const CompensationEvaluation& compensation);

/// What must be done around loading a table, plain sentences.
std::vector<std::string> compensation_cautions();

/// The table in our own plain format: a head of lines that begin with "#" (what it is, convention, cautions, prediction), then
/// CSV with position, absolute and incremental values; of two tables side by side. UTF-8, LF. A refused table has its reasons in
/// the head only.
/// @param job named in the head, e.g. "K-2041, revision 1"
std::string compensation_csv(const CompensationEvaluation& compensation, const std::string& job);

}  // namespace wayfolio::evaluate
