#pragma once
#include "report/words/subject.hpp"

#include "report/model/model.hpp"

/// What the page of a functional point and the numbers of one share.
namespace wayfolio::report {

/// Series of one axis and state that were moved, in the document's order.
using MovedViews = std::vector<const SeriesView*>;

/// All that were moved, by axis and state.
std::vector<MovedViews> moved_groups(const std::vector<SeriesView>& views);
/// Those of them that an angle moved: it has an arm to act with, and was read where it is needed.
MovedViews drawable_of(const MovedViews& group);

/// "3.0 µm" of an effect of the angles.
std::string effect_text(const SeriesView& view, const Deviation& value);
/// What the angles move most, and what becomes of it.
Text tool_point_lead(const Subject& subject, const MovedViews& drawn);
/// Why a series stays as measured, or is not evaluated there.
std::vector<Text> tool_point_reasons(const Subject& subject, const MovedViews& group);

/// Measured and moved results side by side, those of an earlier state beside them, then offset, formula and angles.
/// @param earlier  of the same axis in the state that has no page of its own; may be empty
Section measured_and_moved(const Subject& subject, const MovedViews& drawn, const MovedViews& earlier, const std::vector<Text>& reasons);

}  // namespace wayfolio::report
