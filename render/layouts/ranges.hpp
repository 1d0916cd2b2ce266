#pragma once
#include "layouts/roles.hpp"

#include <array>

/// Private to this room: between which values, in points, each size of a layout lies. Drawing has distances of its own that follow from
/// type of 9 and 7.5 pt (page/spacing.hpp, plot/spacing.hpp): far from these, words stand on words, and what is drawn leaves the paper.
namespace wayfolio::layouts {

struct Range {
    double least, most;
    [[nodiscard]] constexpr bool holds(double number) const { return least <= number && number <= most; }
};

inline constexpr Range paper_side{200, 4000}, along_paper{0, 4000}, baseline_step{8, 60}, pen_width{0, 20}, dash_length{0, 100};
/// Less in all, and one line is a hundred thousand dashes.
inline constexpr double least_dash = 0.2;

struct TypeRange {
    TypeRole role;
    Range size, leading, letter_spacing;
};
struct SizeRange {
    SizeRole role;
    Range range;
};

// clang-format off
inline constexpr std::array<TypeRange, 3> type_ranges{{
    {TypeRole::Lead, {6, 40}, {6, 60}, {-2, 10}}, {TypeRole::Body, {5, 12}, {6, 30}, {-1, 3}},
    {TypeRole::Small, {5, 10}, {6, 30}, {-1, 3}}}};

inline constexpr std::array<SizeRange, 26> size_ranges{{
    {SizeRole::MarkerRadius, {0.2, 10}}, {SizeRole::MarkerRadiusSmall, {0.2, 10}}, {SizeRole::StemMarkerRadius, {0.2, 10}},
    {SizeRole::ExcludedHalf, {0.2, 10}}, {SizeRole::TickLength, {0, 10}}, {SizeRole::MainPlotHeight, {72, 1000}},
    {SizeRole::StripHeight, {24, 400}}, {SizeRole::StripGap, {12, 200}}, {SizeRole::PanelHeight, {48, 600}},
    {SizeRole::PanelGap, {24, 200}}, {SizeRole::PairHeight, {40, 600}}, {SizeRole::PairGap, {18, 200}},
    {SizeRole::TickLabelRoom, {0, 60}}, {SizeRole::BracketStep, {4, 30}}, {SizeRole::BracketTick, {0, 20}},
    {SizeRole::SettingTickHalf, {0, 20}}, {SizeRole::HatchPitch, {0.5, 20}}, {SizeRole::RowPitch, {8, 60}},
    {SizeRole::TightRowPitch, {8, 60}}, {SizeRole::QuantityRowPitch, {24, 100}}, {SizeRole::RecordHeight, {20, 300}},
    {SizeRole::RecordGap, {12, 100}}, {SizeRole::CurveHeight, {6, 96}}, {SizeRole::GaugeWidth, {20, 72}},
    {SizeRole::FigureMargin, {0, 100}}, {SizeRole::BlockGap, {0, 200}}}};
// clang-format on

constexpr bool ranges_in_order() {
    for (std::size_t i = 0; i < type_ranges.size(); ++i)
        if (static_cast<std::size_t>(type_ranges[i].role) != i) return false;
    for (std::size_t i = 0; i < size_ranges.size(); ++i)
        if (static_cast<std::size_t>(size_ranges[i].role) != i) return false;
    return true;
}
static_assert(ranges_in_order());

inline const TypeRange& range_of(TypeRole role) { return type_ranges.at(static_cast<std::size_t>(role)); }
inline const Range& range_of(SizeRole role) { return size_ranges.at(static_cast<std::size_t>(role)).range; }

}  // namespace wayfolio::layouts
