#pragma once
#include "report/model/deviation_plot.hpp"
#include "report/words/shown.hpp"

#include <string>

namespace wayfolio::report {

/// What a colleague would say over the phone: quantity, axis, range, the worst places with numbers, the trend.
std::string alternative_text(const document::Document& document, const document::Series& series, const evaluate::SeriesEvaluation& evaluation,
                             const DeviationPlot& plot, const Shown& shown);

}  // namespace wayfolio::report
