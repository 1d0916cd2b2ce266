#include "page/blocks/answer/row_drawing.hpp"

#include "plot/marks/row_curve.hpp"
#include "plot/shapes.hpp"

#include <algorithm>

namespace wayfolio::page {
namespace {

using report::QuantityRow;

const units::DeviationUnit base_length(units::micrometre), base_angle(units::microradian);

const units::DeviationUnit& base_unit(const report::RowCurve& curve) {
    const auto& points = curve.first.empty() ? curve.second : curve.first;
    return !points.empty() && points[0].second.dimension() == units::Dimension::Angle ? base_angle : base_length;
}

std::string scale_of(const report::RowCurve& curve) { return std::string(base_unit(curve).spelling) + " " + curve.scale; }

}  // namespace

CurveScales::CurveScales(const Composer& composer, const std::vector<QuantityRow>& rows) : composer_(composer) {
    for (const QuantityRow& row : rows) {
        if (row.curve.empty()) continue;
        double& largest = largest_.try_emplace(scale_of(row.curve), 0).first->second;
        largest = std::max(largest, plot::marks::height_of(row.curve, base_unit(row.curve)));
    }
}

void CurveScales::fit(Paper row_height) {
    constexpr double air = 5;
    height_ = std::min(composer_.tools().layout.size(SizeRole::CurveHeight), row_height - pt(air));
}

double CurveScales::of(const report::RowCurve& curve) const {
    const auto found = largest_.find(scale_of(curve));
    constexpr double dots = 1.6;
    return found == largest_.end() || !(found->second > 0) ? 1 : (height_.in(units::point) - dots) / found->second;
}

CurveDrawing curves_of(const Composer& composer, const report::Answer& block, const QuantityRow& row, const CurveScales& scales) {
    CurveDrawing drawing{.x = {},
                         .position_unit = {},
                         .unit = base_unit(row.curve),
                         .points_per_unit = scales.of(row.curve),
                         .height = scales.height()};
    if (!row.axis) return drawing;
    const report::RowAxis& axis = block.axes[*row.axis];
    const Paper left = composer.grid().left + pt(curve_left), right = composer.grid().left + pt(curve_right);
    double from = axis.from.in(axis.unit), to = axis.to.in(axis.unit);
    if (!(to > from)) {  // one place stands in the middle
        from -= 1;
        to += 1;
    }
    drawing.x = plot::Scale(from, to, left, right);
    drawing.position_unit = axis.unit;
    return drawing;
}

Item row_rule(const Composer& composer) {
    return plot::line(composer.tools(), PenRole::RowRule, {composer.grid().left, composer.y}, {composer.grid().margin_right, composer.y});
}

Group row_axis(const Composer& composer, const report::RowAxis& axis, Paper top) {
    const Paper left = composer.grid().left;
    return plot::marks::row_axis(composer.tools(), axis, left + pt(curve_left), left + pt(curve_right), top, composer.y);
}

Group row_guides(const Composer& composer, const report::Answer& block, const std::vector<QuantityRow>& rows, Paper top, Paper bottom) {
    Group group;
    const auto drawn = std::ranges::find_if(rows, [](const QuantityRow& row) { return row.axis && !row.curve.empty(); });
    if (drawn == rows.end()) return group;
    const bool one = std::ranges::all_of(rows, [&](const QuantityRow& row) { return !row.axis || row.axis == drawn->axis; });
    if (!one) return group;
    const Paper left = composer.grid().left + pt(curve_left), right = composer.grid().left + pt(curve_right);
    return plot::marks::row_guides(composer.tools(), block.axes[*drawn->axis], left, right, top, bottom);
}

}  // namespace wayfolio::page
