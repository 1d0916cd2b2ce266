#pragma once
#include "plot/tools.hpp"
#include "report/model/history_plot.hpp"

#include <optional>

namespace wayfolio::plot {

/// A drawn history: one figure each parameter, then a line that explains the marks.
struct HistoryFigure {
    std::vector<Item> items;
    Paper bottom;
};

/// Panels in two columns (one panel: in one) on one time axis; the panels of a row stand level.
/// @param lowest  panels are less high where their last line would else stand below it; nothing: they have their height
HistoryFigure history_figure(const Tools& tools, const report::HistoryPlot& plot, Paper left, Paper right, Paper top,
                             std::optional<Paper> lowest = {});

}  // namespace wayfolio::plot
