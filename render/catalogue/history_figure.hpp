#pragma once
#include "catalogue/history.hpp"
#include "produce/produce.hpp"
#include "report/model/history_plot.hpp"
#include "units/number_text.hpp"

namespace wayfolio::catalogue {

/// Most panels of one figure; what is left over is named, and found with --axis and --parameter.
inline constexpr std::size_t most_panels = 12;

/// The lines that a figure shows: of interest, with at least one value, the first `most_panels` of them.
std::vector<const HistoryLine*> drawn_lines(const History& history);
/// Names of those that it would show but for want of room.
std::vector<std::string> lines_without_room(const History& history);

report::HistoryPlot history_plot(const History& history, units::NumberStyle style);

/// What draws, without which no bytes come about.
struct HistoryDrawing {
    const History& history;
    const layouts::Layout& layout;
    const text::Shaper& shaper;
    /// No document, so no logo, is drawn.
    LibraryVersions versions = produce::versions_in_use({});
};

/// The figure on a page of its own size.
frame::Frame history_frame(const HistoryDrawing& drawing);
/// The same on the layout's paper, six panels a page.
std::vector<frame::Frame> history_pages(const HistoryDrawing& drawing);
/// Its bytes: a PDF has pages and carries the history as JSON, an SVG is one figure and has it in its metadata.
std::string history_bytes(const HistoryDrawing& drawing, produce::FigureFormat format);

}  // namespace wayfolio::catalogue
