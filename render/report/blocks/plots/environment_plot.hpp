#pragma once
#include "evaluate/evaluation.hpp"
#include "report/model/record_plot.hpp"
#include "units/number_text.hpp"

namespace wayfolio::report {

/// The environment record with the runs marked, the effect of the air on the longest linear axis, and the records at rest.
/// Nothing where fewer than two samples have a time.
std::optional<RecordPlot> environment_plot(const document::Document& document, const evaluate::Evaluation& evaluation, units::NumberStyle style);

}  // namespace wayfolio::report
