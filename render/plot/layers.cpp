#include "plot/layers.hpp"

#include "plot/marks/curves.hpp"

namespace wayfolio::plot {

LabelPlaces places_left(const report::DeviationPlot& plot, const Area& area) {
    LabelPlaces places({area.left() - pt(20), area.top() - pt(14), area.right() - area.left() + pt(22), area.bottom() - area.top() + pt(14)});
    using evaluate::TargetEvaluation;
    for (const auto mean : {&TargetEvaluation::mean_positive, &TargetEvaluation::mean_negative}) {
        for (const auto& stretch : marks::stretches(plot, area, mean)) {
            for (std::size_t i = 1; i < stretch.size(); ++i) places.take_line(stretch[i - 1], stretch[i]);
        }
    }
    for (const auto& mark : plot.excluded) {
        const Point at = area.at(mark.position, mark.value);
        places.take({at.x - pt(3), at.y - pt(4), pt(14), pt(8)});
    }
    return places;
}

void data_layers(std::vector<Item>& into, const Tools& tools, const report::DeviationPlot& plot, const Area& area, Paper most_radius) {
    using report::Approach;
    const Paper radius = marks::marker_radius(most_radius, area.right() - area.left(), plot.targets.size());
    into.emplace_back(marks::band(tools, plot, area, Approach::Negative));
    into.emplace_back(marks::band(tools, plot, area, Approach::Positive));
    into.emplace_back(marks::runs(tools, plot, area));
    into.emplace_back(marks::trace(tools, plot, area));
    into.emplace_back(marks::mean_line(tools, plot, area, Approach::Negative));
    into.emplace_back(marks::mean_line(tools, plot, area, Approach::Positive));
    into.emplace_back(marks::bidirectional_line(tools, plot, area));
    into.emplace_back(marks::markers(tools, plot, area, Approach::Negative, radius));
    into.emplace_back(marks::markers(tools, plot, area, Approach::Positive, radius));
    into.emplace_back(marks::excluded(tools, plot, area));
}

}  // namespace wayfolio::plot
