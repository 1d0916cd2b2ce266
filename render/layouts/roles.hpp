#pragma once
#include <array>
#include <cstddef>
#include <string_view>

/// The names a layout must give a value for. Drawing code asks by these enumerators, files write the words beside them; a layout that lacks
/// one, or has one more, is refused when it is read, so that no drawing can ask in vain.
namespace wayfolio::layouts {

/// An enumerator and the word for it in a layout file.
template <class Role>
struct RoleWord {
    Role role;
    std::string_view word;
};

/// All roles of a kind with their words, in the order of the enumerators.
template <class Role>
inline constexpr std::array<RoleWord<Role>, 0> role_words{};

// clang-format off
/// Three sizes of type: the one sentence of an opening, text, and tables with captions.
enum class TypeRole {
    Lead, Body, Small
};
template <>
inline constexpr std::array<RoleWord<TypeRole>, 3> role_words<TypeRole>{{
    {TypeRole::Lead, "lead"}, {TypeRole::Body, "body"}, {TypeRole::Small, "small"}}};

/// Colours by what is drawn in them.
enum class ColourRole {
    Paper, Ink, Grey, Rule, Positive, Negative, PositiveLabel, NegativeLabel, PositiveRun, NegativeRun, PositiveTint, NegativeTint,
    PositiveHatch, NegativeHatch, Lane, Faint, Band, ValueBar, PartInstrument, PartExpansion, PartListed
};
template <>
inline constexpr std::array<RoleWord<ColourRole>, 21> role_words<ColourRole>{{
    {ColourRole::Paper, "paper"}, {ColourRole::Ink, "ink"}, {ColourRole::Grey, "grey"}, {ColourRole::Rule, "rule"},
    {ColourRole::Positive, "positive"}, {ColourRole::Negative, "negative"}, {ColourRole::PositiveLabel, "positive_label"},
    {ColourRole::NegativeLabel, "negative_label"}, {ColourRole::PositiveRun, "positive_run"}, {ColourRole::NegativeRun, "negative_run"},
    {ColourRole::PositiveTint, "positive_tint"}, {ColourRole::NegativeTint, "negative_tint"},
    {ColourRole::PositiveHatch, "positive_hatch"}, {ColourRole::NegativeHatch, "negative_hatch"}, {ColourRole::Lane, "lane"},
    {ColourRole::Faint, "faint"}, {ColourRole::Band, "band"}, {ColourRole::ValueBar, "value_bar"},
    {ColourRole::PartInstrument, "part_instrument"}, {ColourRole::PartExpansion, "part_expansion"},
    {ColourRole::PartListed, "part_listed"}}};

/// Pens by what they draw.
enum class PenRole {
    TableRule, ZeroLine, Axis, QuietAxis, Tick, Limit, Bracket, SettingTick, Leader, Signature, SymbolLimit, SymbolRing, ReversalStem,
    PositiveStem, NegativeStem, PositiveMean, NegativeMean, PalePositiveMean, PaleNegativeMean, Mean, Run, OpenMarker, Excluded,
    UncertaintyBar, Curve, BandHatch, Trace, Record, SecondRecord, RowRule, Guide, BandEdge, SecondCurve, RowStem, PositiveEdge,
    NegativeEdge, PartOutline, PartHatch, MeasuredLine, UnusedTravel, Volume
};
template <>
inline constexpr std::array<RoleWord<PenRole>, 41> role_words<PenRole>{{
    {PenRole::TableRule, "table_rule"}, {PenRole::ZeroLine, "zero_line"}, {PenRole::Axis, "axis"}, {PenRole::QuietAxis, "quiet_axis"},
    {PenRole::Tick, "tick"}, {PenRole::Limit, "limit"}, {PenRole::Bracket, "bracket"}, {PenRole::SettingTick, "setting_tick"},
    {PenRole::Leader, "leader"}, {PenRole::Signature, "signature"}, {PenRole::SymbolLimit, "symbol_limit"},
    {PenRole::SymbolRing, "symbol_ring"}, {PenRole::ReversalStem, "reversal_stem"}, {PenRole::PositiveStem, "positive_stem"},
    {PenRole::NegativeStem, "negative_stem"}, {PenRole::PositiveMean, "positive_mean"}, {PenRole::NegativeMean, "negative_mean"},
    {PenRole::PalePositiveMean, "pale_positive_mean"}, {PenRole::PaleNegativeMean, "pale_negative_mean"}, {PenRole::Mean, "mean"},
    {PenRole::Run, "run"}, {PenRole::OpenMarker, "open_marker"}, {PenRole::Excluded, "excluded"},
    {PenRole::UncertaintyBar, "uncertainty_bar"}, {PenRole::Curve, "curve"}, {PenRole::BandHatch, "band_hatch"},
    {PenRole::Trace, "trace"}, {PenRole::Record, "record"}, {PenRole::SecondRecord, "second_record"},
    {PenRole::RowRule, "row_rule"}, {PenRole::Guide, "guide"}, {PenRole::BandEdge, "band_edge"}, {PenRole::SecondCurve, "second_curve"},
    {PenRole::RowStem, "row_stem"}, {PenRole::PositiveEdge, "positive_edge"}, {PenRole::NegativeEdge, "negative_edge"},
    {PenRole::PartOutline, "part_outline"}, {PenRole::PartHatch, "part_hatch"}, {PenRole::MeasuredLine, "measured_line"},
    {PenRole::UnusedTravel, "unused_travel"}, {PenRole::Volume, "volume"}}};

/// Distances on paper, in points.
enum class SizeRole {
    MarkerRadius, MarkerRadiusSmall, StemMarkerRadius, ExcludedHalf, TickLength, MainPlotHeight, StripHeight, StripGap, PanelHeight,
    PanelGap, PairHeight, PairGap, TickLabelRoom, BracketStep, BracketTick, SettingTickHalf, HatchPitch, RowPitch, TightRowPitch,
    QuantityRowPitch, RecordHeight, RecordGap, CurveHeight, GaugeWidth, FigureMargin, BlockGap
};
template <>
inline constexpr std::array<RoleWord<SizeRole>, 26> role_words<SizeRole>{{
    {SizeRole::MarkerRadius, "marker_radius"}, {SizeRole::MarkerRadiusSmall, "marker_radius_small"},
    {SizeRole::StemMarkerRadius, "stem_marker_radius"}, {SizeRole::ExcludedHalf, "excluded_half"}, {SizeRole::TickLength, "tick_length"},
    {SizeRole::MainPlotHeight, "main_plot_height"}, {SizeRole::StripHeight, "strip_height"}, {SizeRole::StripGap, "strip_gap"},
    {SizeRole::PanelHeight, "panel_height"}, {SizeRole::PanelGap, "panel_gap"}, {SizeRole::PairHeight, "pair_height"},
    {SizeRole::PairGap, "pair_gap"}, {SizeRole::TickLabelRoom, "tick_label_room"}, {SizeRole::BracketStep, "bracket_step"},
    {SizeRole::BracketTick, "bracket_tick"}, {SizeRole::SettingTickHalf, "setting_tick_half"}, {SizeRole::HatchPitch, "hatch_pitch"},
    {SizeRole::RowPitch, "row_pitch"}, {SizeRole::TightRowPitch, "tight_row_pitch"}, {SizeRole::QuantityRowPitch, "quantity_row_pitch"},
    {SizeRole::RecordHeight, "record_height"}, {SizeRole::RecordGap, "record_gap"}, {SizeRole::CurveHeight, "curve_height"},
    {SizeRole::GaugeWidth, "gauge_width"}, {SizeRole::FigureMargin, "figure_margin"}, {SizeRole::BlockGap, "block_gap"}}};

// clang-format on

/// Whether each word stands where its enumerator counts.
template <class Role>
constexpr bool in_order() {
    for (std::size_t i = 0; i < role_words<Role>.size(); ++i)
        if (static_cast<std::size_t>(role_words<Role>[i].role) != i || role_words<Role>[i].word.empty()) return false;
    return true;
}
static_assert(in_order<TypeRole>() && in_order<ColourRole>() && in_order<PenRole>() && in_order<SizeRole>());

/// A value for each role of a kind. @throws std::out_of_range for an enumerator without a word
template <class Role, class Value>
class ByRole {
public:
    Value& operator[](Role role) { return values_.at(static_cast<std::size_t>(role)); }
    const Value& operator[](Role role) const { return values_.at(static_cast<std::size_t>(role)); }

private:
    std::array<Value, role_words<Role>.size()> values_{};
};

/// What a report can be made of; a layout lists them in the order it wants.
inline constexpr std::array<std::string_view, 19> block_names{
    "answer", "openings", "polar", "straightness", "angles", "tool-point", "squareness", "states", "compensation",
    "uncertainty", "measurement-lines", "environment", "hints", "readings", "conditions", "facts", "house", "remarks", "closing"};

}  // namespace wayfolio::layouts
