#pragma once
#include "plot/shapes.hpp"
#include "report/model/verdict.hpp"

namespace wayfolio::plot::marks {

/// The gauge in miniature, ink only: a tick for the limit; a ring under it for Inside, a disc over it for Outside, a half disc on it for
/// Undecided. Less than U away the mark is nearer, with a whisker across the limit: a ring or, not accepted, a disc under it, a disc over
/// it. The tick alone: not evaluated. Nothing where no limit is set.
/// @param left left end of the 14 pt cell; the symbol is centred in it, 3.2 pt above `baseline`
frame::Group verdict_symbol(const Tools& tools, report::Standing standing, Paper left, Paper baseline);

/// The same in grey: of a value that a later one supersedes.
frame::Group superseded_symbol(const Tools& tools, report::Standing standing, Paper left, Paper baseline);

/// What a value is drawn as on a scale: ring, half disc or disc as its symbol has it; a tick where nothing was decided.
void value_mark(std::vector<frame::Item>& into, const Tools& tools, report::Standing standing, frame::Point centre);

/// A value against its limit: a line from 0 to 1.5 times the limit, on it a bar for ± U and a dot that tells the verdict. A value beyond
/// the line is an arrow at its end with the number of limits behind it; without a value there is the line alone.
/// @param value_of_limit value / limit
/// @param U_of_limit U / limit; the bar ends where the line does
/// @param left where 0 stands; the line is as long as the layout's size "gauge_width"
/// @param middle height of the line on the page
frame::Group gauge(const Tools& tools, std::optional<double> value_of_limit, std::optional<double> U_of_limit,
                   report::Standing standing, Paper left, Paper middle);
/// A small ring on such a line: where a value stood before. Nothing beyond the line's end.
frame::Group gauge_before(const Tools& tools, double value_of_limit, Paper left, Paper middle);
/// Where the limit stands in a gauge that begins at `left`.
Paper gauge_limit(const Tools& tools, Paper left);

}  // namespace wayfolio::plot::marks
