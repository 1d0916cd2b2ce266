#include "plot/marks/stems.hpp"

#include "plot/approach_roles.hpp"
#include "plot/marks/curves.hpp"

#include <algorithm>

namespace wayfolio::plot::marks {
namespace {

constexpr std::size_t most_stems = 36;

/// Half the distance between the two stems of a target.
Paper offset_of(const Area& area, std::size_t targets) {
    constexpr double most = 1.7, of_spacing = 0.25;
    if (targets < 2) return pt(most);
    return std::min(pt(most), (area.right() - area.left()) / static_cast<double>(targets - 1) * of_spacing);
}

}  // namespace

frame::Group reversal_stems(const Tools& tools, const report::DeviationPlot& plot, const Area& area) {
    frame::Group group{.id = "reversal"};
    const Paper radius = marker_radius(tools.layout.size(SizeRole::StemMarkerRadius), area.right() - area.left(), plot.targets.size());
    const Paper zero = area.y.map(0);
    for (const auto& target : plot.targets) {
        if (!target.reversal) continue;
        const Point end = area.at(target.position, *target.reversal);
        group.items.emplace_back(line(tools, PenRole::ReversalStem, {end.x, zero}, end));
        group.items.emplace_back(disc(tools, ColourRole::Ink, end, radius));
    }
    return group;
}

frame::Group repeatability_stems(const Tools& tools, const report::DeviationPlot& plot, const Area& area) {
    frame::Group group{.id = "repeatability"};
    const Paper radius = marker_radius(tools.layout.size(SizeRole::StemMarkerRadius), area.right() - area.left(), plot.targets.size());
    const Paper aside = offset_of(area, plot.targets.size()), zero = area.y.map(0);
    const bool stems = plot.targets.size() <= most_stems;
    for (const auto& target : plot.targets) {
        for (const Approach approach : {Approach::Negative, Approach::Positive}) {
            const bool positive = approach == Approach::Positive;
            const auto& spread = target.one_way[approach].R;
            if (!spread) continue;
            const Point end{area.across(target.position) + (positive ? -aside : aside), area.up(*spread)};
            if (stems) group.items.emplace_back(line(tools, roles_of(approach).stem, {end.x, zero}, end));
            group.items.emplace_back(marker(tools, approach, end, radius));
        }
    }
    return group;
}

}  // namespace wayfolio::plot::marks
