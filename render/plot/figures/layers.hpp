#pragma once
#include "plot/area.hpp"
#include "plot/label_places.hpp"
#include "plot/tools.hpp"

namespace wayfolio::plot {

/// Where labels may still go: curves and excluded readings have taken their place.
LabelPlaces places_left(const Tools& tools, const report::DeviationPlot& plot, const Area& area);

/// Bands, runs, trace, means, markers, excluded readings, in drawing order.
void data_layers(std::vector<Item>& into, const Tools& tools, const report::DeviationPlot& plot, const Area& area, Paper most_radius);

/// "positive" and "negative" at their curves, clear of bands and other labels, where there is room.
void direct_labels(std::vector<Item>& into, const Tools& tools, const report::DeviationPlot& plot, const Area& area, LabelPlaces& places);

}  // namespace wayfolio::plot
