#pragma once
#include "evaluate/evaluation.hpp"
#include "evaluate/review/findings.hpp"

#include <string>
#include <string_view>

namespace wayfolio::evaluate {

/// The evaluation as JSON, indented by two, ended by a newline; keys and order as the schema describes them.
/// Numbers are the shortest text that reads back as the same double. Deviations stand in the series' own unit, positions as the
/// document wrote them; what could not be had is absent, and `not_evaluated` says why.
std::string evaluation_json(const document::Document& document, const Evaluation& evaluation);

/// The JSON Schema (draft-07 vocabulary) of that text.
std::string_view evaluation_schema();

/// {"faults": [...], "warnings": [...], "lacking": [...], "supports": [...], "before_leaving": [{"what", "where", "how_sure", "do"}],
/// "last_line": "..."}, ended by a newline; the last two only for a document without faults.
std::string findings_json(const Findings& findings);

}  // namespace wayfolio::evaluate
