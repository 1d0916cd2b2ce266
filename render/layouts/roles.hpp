#pragma once
#include <array>
#include <string_view>

/// The names a layout must give a value for. Drawing code asks by these names; a layout that lacks one is refused when it is read.
namespace wayfolio::layouts {

/// Three sizes of type: the one sentence of an opening, text, and tables with captions.
inline constexpr std::array<std::string_view, 3> type_roles{"lead", "body", "small"};

inline constexpr std::array<std::string_view, 15> colour_roles{
    "paper", "ink", "grey", "rule", "positive", "negative", "positive_label", "negative_label",
    "positive_run", "negative_run", "positive_tint", "negative_tint", "positive_hatch", "negative_hatch", "lane"};

inline constexpr std::array<std::string_view, 29> pen_roles{
    "table_rule", "zero_line", "axis", "quiet_axis", "tick", "limit", "bracket", "setting_tick", "leader", "signature",
    "symbol_limit", "symbol_ring", "reversal_stem", "positive_stem", "negative_stem", "positive_mean", "negative_mean",
    "pale_positive_mean", "pale_negative_mean", "mean", "run", "open_marker", "excluded", "uncertainty_bar", "curve", "band_hatch", "trace", "record", "second_record"};

/// Distances on paper, in points.
inline constexpr std::array<std::string_view, 26> size_roles{
    "marker_radius", "marker_radius_small", "stem_marker_radius", "excluded_half", "tick_length",
    "main_plot_height", "strip_height", "strip_gap", "panel_height", "panel_gap", "pair_height", "pair_gap",
    "tick_label_room", "bracket_step", "bracket_tick", "setting_tick_half", "hatch_pitch",
    "row_pitch", "tight_row_pitch", "quantity_row_pitch", "record_height", "record_gap", "curve_height", "gauge_width", "figure_margin", "block_gap"};

/// What a report can be made of; a layout lists them in the order it wants.
inline constexpr std::array<std::string_view, 16> block_names{
    "answer", "openings", "polar", "straightness", "angles", "tool-point", "squareness", "states", "compensation",
    "uncertainty", "environment", "hints", "readings", "conditions", "facts", "closing"};

}  // namespace wayfolio::layouts
