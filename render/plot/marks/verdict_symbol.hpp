#pragma once
#include "plot/shapes.hpp"
#include "report/model/verdict.hpp"

namespace wayfolio::plot::marks {

/// The gauge in miniature, ink only: a tick for the limit; a ring short of it, a disc past it, a half disc on it.
/// @param left left end of the 14 pt cell; the symbol is centred 3.2 pt above `baseline`
frame::Group verdict_symbol(const Tools& tools, report::VerdictSymbol symbol, Paper left, Paper baseline);

/// A value against its limit: base from 0 to 1.5 x limit, bar ± U, dot = verdict symbol.
/// @param area left, width: the gauge's extent; `middle` its height on the page
frame::Group gauge(const Tools& tools, std::optional<double> value_of_limit, std::optional<double> U_of_limit,
                   report::VerdictSymbol symbol, Paper left, Paper middle);
/// Where the limit stands in a gauge that begins at `left`.
Paper gauge_limit(const Tools& tools, Paper left);

}  // namespace wayfolio::plot::marks
