#pragma once
#include "evaluate/evaluation.hpp"
#include "evaluate/review/site/findings.hpp"

#include <string>
#include <string_view>

namespace wayfolio::evaluate {

/// The evaluation as JSON, indented by two, ended by a newline; keys and order as the schema describes them.
/// Numbers are the shortest text that reads back as the same double. Deviations stand in the series' own unit, positions as the
/// document wrote them; what could not be had is absent, and `not_evaluated` says why.
/// @param processors how many it may work on at a time, as for evaluate()
std::string evaluation_json(const document::Document& document, const Evaluation& evaluation, std::size_t processors = 1);

/// The JSON Schema (draft-07 vocabulary) of that text.
std::string_view evaluation_schema();

/// What `check` finds, as findings_schema() describes it, ended by a newline; `before_leaving` and `last_line` only for a document
/// without faults.
std::string findings_json(const Findings& findings);

/// The JSON Schema (draft-07 vocabulary) of that text; it lists every code.
std::string_view findings_schema();

}  // namespace wayfolio::evaluate
