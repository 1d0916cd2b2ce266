#pragma once
#include "plot/scale.hpp"
#include "report/model/deviation_plot.hpp"

namespace wayfolio::plot {

using units::Deviation;
using units::DeviationUnit;
using units::Position;
using units::PositionUnit;

/// Room between an axis and the labels inside the plot: closer, they read as one with the number of a tick.
inline constexpr Paper beside_axis = units::point(5);

/// A plot's inside: where a position and a deviation land on paper, in the shown units.
struct Area {
    Scale x, y;
    PositionUnit position_unit;
    DeviationUnit unit;

    [[nodiscard]] Paper across(const Position& position) const { return x.map(position.in(position_unit)); }
    [[nodiscard]] Paper up(const Deviation& deviation) const { return y.map(deviation.in(unit)); }
    [[nodiscard]] frame::Point at(const Position& position, const Deviation& deviation) const {
        return {across(position), up(deviation)};
    }
    [[nodiscard]] Paper left() const { return x.from(); }
    [[nodiscard]] Paper right() const { return x.to(); }
    [[nodiscard]] Paper top() const { return y.to(); }
    [[nodiscard]] Paper bottom() const { return y.from(); }
};

/// Lowest and highest of a set of numbers; empty until the first is added.
struct Extent {
    std::optional<double> low, high;
    void add(double value) {
        low = low ? std::min(*low, value) : value;
        high = high ? std::max(*high, value) : value;
    }
    void add(const std::optional<Deviation>& value, const DeviationUnit& unit);
    [[nodiscard]] double width() const { return low ? *high - *low : 0; }
};

/// What the curves, bands and runs of a figure cover (excluded readings and limits apart), in its shown unit.
Extent data_extent(const report::DeviationPlot& plot);
/// The data, with limit lines and excluded readings where they do not squeeze the data: a limit up to four data heights,
/// an excluded reading up to half a data height beyond.
Extent shown_extent(const report::DeviationPlot& plot);
/// Whether the limit lines of `plot` lie inside its shown extent.
bool limit_fits(const report::DeviationPlot& plot);

/// Where positions begin and end, in the shown unit.
Extent position_extent(const report::DeviationPlot& plot);

}  // namespace wayfolio::plot
