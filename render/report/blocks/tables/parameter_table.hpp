#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

struct ParameterTable {
    std::vector<ParameterRow> rows;
    std::vector<Text> notes;  ///< numbered reasons for what is not evaluated, then what a dash means
};

/// Parameters of a positioning series: one direction, other direction, both, U, limit, targets that set them, verdict.
/// Older evaluations asked for follow under their own names.
ParameterTable parameter_table(const Subject& subject, const SeriesView& view);

}  // namespace wayfolio::report
