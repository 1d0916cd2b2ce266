#pragma once
#include "plot/figures.hpp"
#include "report/model/record_plot.hpp"

namespace wayfolio::plot {

/// A drawn record, and the words of its curves with the heights they speak about, from top to bottom.
struct RecordFigure {
    DrawnFigure drawn;
    std::vector<std::pair<Paper, report::Text>> words;
};

/// Curves over the measuring time, one above the other on one time axis, with the runs as lanes behind them.
/// @param words AtCurves: names and ranges stand in the panels' titles instead of beside the figure
RecordFigure record_figure(const Tools& tools, const report::RecordPlot& plot, Paper left, Paper right, Paper top, CurveWords words);
/// Height from `top` to the numbers of the time axis.
Paper record_height(const Tools& tools, const report::RecordPlot& plot);

}  // namespace wayfolio::plot
