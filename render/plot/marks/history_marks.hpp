#pragma once
#include "plot/label_places.hpp"
#include "plot/scale.hpp"
#include "plot/shapes.hpp"
#include "report/model/history_plot.hpp"

/// Marks of a history: values over years.
namespace wayfolio::plot::marks {

/// What a value against its limit is drawn as: the symbol of its verdict; a level stroke where nothing was decided.
frame::Group history_mark(const Tools& tools, report::Standing standing, Point at);
/// The value as found at the visit that left this one; null where it was left without having been found, or is not one as left.
const report::HistoryValue* found_before(const report::HistoryPanel& panel, const report::HistoryValue& left);
/// From a value as found towards the one as left at the same visit.
frame::Group history_arrow(const Tools& tools, Point from, Point to);
/// Values with their U bars behind them: as left a little later than as found, with an arrow to it; apart a cross.
frame::Group history_values(const Tools& tools, const report::HistoryPanel& panel, const Scale& time, const Scale& y, LabelPlaces& places);
/// From each value to the next that was found; not over an adjustment, which has an upright of its own.
frame::Group history_path(const Tools& tools, const report::HistoryPanel& panel, const Scale& time, const Scale& y);
/// Uprights where a visit left another value than it found.
frame::Group history_adjustments(const Tools& tools, const report::HistoryPanel& panel, const Scale& time, const Scale& y);
/// The line through the values.
frame::Group history_trend(const Tools& tools, const report::HistoryTrend& trend, const Scale& time, const Scale& y, LabelPlaces& places);
/// U about each limit, hatched.
frame::Group history_guards(const Tools& tools, const report::HistoryPanel& panel, const Scale& time, const Scale& y);
/// The numbers of the first and the last values, where there is room.
frame::Group history_labels(const Tools& tools, const report::HistoryPanel& panel, const Scale& time, const Scale& y, LabelPlaces& places);
/// Limits that lie on the scale, each while it was in force, with the words of the latest where there is room.
frame::Group history_limits(const Tools& tools, const report::HistoryPanel& panel, const Scale& time, const Scale& y, LabelPlaces& places);
/// Years, or months where the span is short, under a panel.
frame::Group date_axis(const Tools& tools, const Scale& time, Paper foot);

}  // namespace wayfolio::plot::marks
