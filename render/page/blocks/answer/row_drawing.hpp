#pragma once
#include "page/table.hpp"
#include "plot/scale.hpp"
#include "report/model/answer.hpp"

#include <map>
#include <optional>

/// One row of the first page, and what rows share. Places are measured from the wide column's left edge.
namespace wayfolio::page {

inline constexpr double curve_left = 80, curve_right = 180, limit_left = 193, value_point = 205;
inline constexpr double row_air = 3;  ///< graphics and links keep off the rules above and below their row

/// Where the gauges begin: they end with the wide column.
Paper gauge_left(const Composer& composer);

/// Points of paper per unit, one scale for each unit and kind of curve.
class CurveScales {
public:
    CurveScales(const Composer& composer, const std::vector<report::QuantityRow>& rows);
    /// So that the largest of each kind fills a row of this height.
    void fit(Paper row_height);
    [[nodiscard]] double of(const report::RowCurve& curve) const;
    [[nodiscard]] Paper height() const { return height_; }

private:
    const Composer& composer_;
    std::map<std::string, double> largest_;
    Paper height_;
};

/// How a row's curve is drawn: over which axis and to which scale; nothing without an axis.
struct CurveDrawing {
    std::optional<plot::Scale> x;
    std::optional<units::PositionUnit> position_unit;
    units::DeviationUnit unit;
    double points_per_unit;
    Paper height;
};
CurveDrawing curves_of(const Composer& composer, const report::Answer& block, const report::QuantityRow& row, const CurveScales& scales);

struct RowLook {
    Paper pitch;
    bool gauges, probabilities;  ///< columns that some row has
    CurveDrawing curve;
};

/// The pitch, and more where words wrap.
Paper row_height(const Composer& composer, const report::QuantityRow& row, Paper pitch);
/// A row of two lines whose upper edge is composer.y.
void place_row(Composer& composer, const report::QuantityRow& row, const RowLook& look, Table& table);

/// A grey row on the baseline composer.y: all of it in one line, its words in so many.
double quiet_row_lines(const Composer& composer, const report::QuantityRow& row);
void place_quiet_row(Composer& composer, const report::QuantityRow& row, const CurveDrawing& drawing, Table& table);

/// The rule between two rows, at composer.y.
Item row_rule(const Composer& composer);
/// An axis at composer.y, with guides at its ticks up to `top`.
Group row_axis(const Composer& composer, const report::RowAxis& axis, Paper top);
/// The guides alone, of rows that stand over one axis; nothing where they stand over several.
Group row_guides(const Composer& composer, const report::Answer& block, const std::vector<report::QuantityRow>& rows, Paper top,
                 Paper bottom);

}  // namespace wayfolio::page
