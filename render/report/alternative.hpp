#pragma once
#include "report/deviation_plot.hpp"
#include "report/shown.hpp"

#include <string>

namespace wayfolio::report {

/// What a colleague would say over the phone: quantity, axis, range, the worst places with numbers, the trend.
std::string alternative_text(const results::Document& document, const results::Series& series, const evaluate::SeriesEvaluation& evaluation,
                             const DeviationPlot& plot, const Shown& shown);

}  // namespace wayfolio::report
