#include "plot/figures/figures.hpp"

#include "plot/figures/layers.hpp"
#include "plot/marks/axes.hpp"
#include "plot/marks/curves.hpp"
#include "plot/marks/measures.hpp"
#include "plot/spacing.hpp"

namespace wayfolio::plot {
namespace {

constexpr double bracket_words = 20;  // right of the plot: a bracket with its number

}  // namespace

DrawnFigure panel_figure(const Tools& tools, const report::DeviationPlot& plot, const PanelPlace& place) {
    const Area area{.x = Scale(*place.positions.low, *place.positions.high, place.plot_left, place.right),
                    .y = Scale(place.ticks.low(), place.ticks.high(), place.top + place.height, place.top),
                    .position_unit = plot.position_unit,
                    .unit = plot.unit};
    LabelPlaces places = places_left(tools, plot, area);
    std::vector<Item> items;
    if (place.y_numbers) items.emplace_back(marks::y_axis(tools, area, place.ticks, marks::Labels::Numbers));
    items.emplace_back(marks::x_axis(tools, area, place.positions, place.x_title, place.left,
                                     place.x_numbers ? marks::Labels::Numbers : marks::Labels::None));
    items.emplace_back(marks::zero_line(tools, area));
    items.emplace_back(marks::limit_lines(tools, plot, area, marks::LimitLabel::Short, places));
    data_layers(items, tools, plot, area, place.marker_radius);
    items.emplace_back(marks::setting_ticks(tools, plot, area, places));
    if (place.direct_labels) direct_labels(items, tools, plot, area, places);
    items.emplace_back(marks::brackets(tools, plot, area, place.right + pt(first_bracket)));
    DrawnFigure drawn{.group = grouped(frame::Role::Figure, std::move(items)),
                      .bottom = place.top + place.height + pt(place.x_numbers ? axis_room : 0),
                      .bracket_top = plot.brackets.empty() ? place.top : area.up(plot.brackets.front().high)};
    drawn.group.alternative = plot.alternative;
    drawn.group.id = plot.series_id;
    drawn.group.box = Rect{place.left, place.top - pt(title_ascent), place.right - place.left + pt(bracket_words),
                           drawn.bottom - place.top + pt(title_ascent)};
    return drawn;
}

}  // namespace wayfolio::plot
