#include "plot/area.hpp"

#include <algorithm>

namespace wayfolio::plot {
namespace {

// Chosen by eye: beyond this a limit flattens the curves it judges; its number is then written instead.
constexpr double limit_in_data_heights = 4;
constexpr double excluded_beyond_data = 0.5;

void add_band(Extent& extent, const std::optional<Deviation>& mean, const std::optional<Deviation>& s, const DeviationUnit& unit) {
    extent.add(mean, unit);
    if (mean && s) {
        extent.add(*mean + *s * 2.0, unit);
        extent.add(*mean - *s * 2.0, unit);
    }
}

}  // namespace

void Extent::add(const std::optional<Deviation>& value, const DeviationUnit& unit) {
    if (value) add(value->in(unit));
}

Extent data_extent(const report::DeviationPlot& plot) {
    Extent extent;
    for (const auto& target : plot.targets) {
        for (const auto approach : document::both_approaches)
            add_band(extent, target.one_way[approach].mean, target.one_way[approach].s, plot.unit);
    }
    for (const auto& run : plot.runs) {
        for (const auto& reading : run.readings) extent.add(reading, plot.unit);
    }
    if (plot.pale_means)
        for (const auto& target : plot.pale_means->targets)
            for (const auto& mean : {target.one_way.positive.mean, target.one_way.negative.mean, target.mean}) extent.add(mean, plot.unit);
    for (const auto& tick : plot.ticks) extent.add(tick.level, plot.unit);
    for (const auto& sample : plot.trace) extent.add(sample.value, plot.unit);
    return extent;
}

bool limit_fits(const report::DeviationPlot& plot) {
    const double data = data_extent(plot).width();
    return plot.limit && (data <= 0 || plot.limit->width.in(plot.unit) <= limit_in_data_heights * data);
}

Extent shown_extent(const report::DeviationPlot& plot) {
    const Extent data = data_extent(plot);
    Extent shown = data;
    if (limit_fits(plot)) {
        shown.add(plot.limit->centre + plot.limit->width / 2.0, plot.unit);
        shown.add(plot.limit->centre - plot.limit->width / 2.0, plot.unit);
    }
    if (!data.low) {
        shown.add(0);
        return shown;
    }
    const double reach = excluded_beyond_data * data.width();
    for (const auto& mark : plot.excluded) {
        const double value = mark.value.in(plot.unit);
        if (value >= *data.low - reach && value <= *data.high + reach) shown.add(value);
    }
    return shown;
}

Extent position_extent(const report::DeviationPlot& plot) {
    Extent extent;
    for (const auto& target : plot.targets) extent.add(target.position.in(plot.position_unit));
    if (plot.pale_means)
        for (const auto& target : plot.pale_means->targets) extent.add(target.position.in(plot.position_unit));
    for (const auto& sample : plot.trace) extent.add(sample.position.in(plot.position_unit));
    return extent;
}

}  // namespace wayfolio::plot
