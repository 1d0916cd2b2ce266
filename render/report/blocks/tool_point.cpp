#include "report/blocks/blocks.hpp"

#include "document/states.hpp"
#include "evaluate/series/geometry/geometry.hpp"
#include "report/blocks/plots/plots.hpp"
#include "report/blocks/tables/tool_point_tables.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

using evaluate::AtToolPoint;
using evaluate::TargetEvaluation;

/// "lowest at 0 mm, highest at 1 000 mm": the levels themselves hang on the instrument's zero.
std::string extremes_words(const SeriesView& view, const AtToolPoint& at) {
    return "lowest at " + position_text(view.shown, at.set_by[1].position) + ", highest at " +
           position_text(view.shown, at.set_by[0].position);
}

/// Not one of the openings of series: a series may be called "tool-point-x".
std::string tool_point_anchor(const SeriesView& view) { return "tool-point-" + view.series.id; }

/// Both approaches together: a constant part is arbitrary, for an angle has no zero.
Deviation mean_effect(const AtToolPoint& at) {
    Deviation sum(0.0, at.unit);
    double count = 0;
    for (const auto& target : at.targets)
        for (const Approach approach : document::both_approaches)
            if (const auto& effect = target.effect[approach]) sum = sum + *effect, ++count;
    return count > 0 ? sum / count : sum;
}

/// Every mean lower by so much.
void lower(evaluate::SeriesEvaluation& series, const Deviation& by) {
    for (TargetEvaluation& target : series.targets) {
        for (const Approach approach : document::both_approaches)
            if (auto& mean = target.one_way[approach].mean) mean = *mean - by;
        if (target.mean) target.mean = *target.mean - by;
    }
}

/// The curve as it is there, over the one that was measured. Its verdicts are those of the measured one: it has no limit.
DeviationPlot moved_plot(const Subject& subject, const SeriesView& view) {
    const AtToolPoint& at = *view.evaluation.at_tool_point;
    auto there = evaluate::at_functional_point(subject.document, view.evaluation);
    if (view.evaluation.kind == evaluate::SeriesKind::Positioning) lower(there, mean_effect(at));
    DeviationPlot plot = deviation_plot(subject.document, view.series, there, view.shown);
    plot.series_id = "tool-point-" + view.series.id;
    plot.limit.reset();
    plot.excluded.clear();
    plot.trace.clear();
    plot.pale_means = {.words = "means as measured",
                       .targets = deviation_plot(subject.document, view.series, view.evaluation, view.shown).targets};
    plot.alternative = series_title(subject.document, view.series) + " at the functional point, against position on axis " +
                       view.series.error.axis + ", over the means as measured in pale lines.";
    if (const auto curve = mean_curve_of(plot); !curve.empty()) plot.alternative += " " + curve_words(curve, view.shown);
    plot.alternative += " Over the travel and both approaches the effect of the angles changes by " + effect_text(view, *at.largest) +
                        ", " + extremes_words(view, at) + ".";
    return plot;
}

Panel moved_panel(const Subject& subject, const SeriesView& view) {
    const AtToolPoint& at = *view.evaluation.at_tool_point;
    Panel panel{.anchor = tool_point_anchor(view),
                .name = quantity_title(subject.document, view.series.error),
                .title = "at the functional point, over as measured / " + std::string(view.shown.unit.symbol),
                .plot = moved_plot(subject, view)};
    panel.verdict.word = Text("Range " + effect_text(view, *at.largest));
    panel.verdict.margin = Text(extremes_words(view, at));
    // Measured and moved results stand in the table below.
    panel.value = {Text("effect of the angles, range ").strong(effect_text(view, *at.largest))};
    return panel;
}

/// What was measured of the same axis in the earlier of two states that stand side by side: it has no page of its own. May be empty.
MovedViews earlier_beside(const Subject& subject, const MovedViews& group) {
    const auto compared = document::states_compared(subject.document);
    const std::vector<std::string> superseded = shown_by_states(subject);
    if (!compared || group.front()->series.state != compared->second) return {};
    for (const MovedViews& other : moved_groups(subject.views)) {
        MovedViews drawn = drawable_of(other);
        const bool beside = !drawn.empty() && drawn.front()->series.error.axis == group.front()->series.error.axis &&
                            std::ranges::find(superseded, drawn.front()->series.id) != superseded.end();
        if (beside) return drawn;
    }
    return {};
}

Block block_of(const Subject& subject, const MovedViews& group) {
    const SeriesView& first = *group.front();
    const MovedViews drawn = drawable_of(group);
    const std::string label = "Functional point of " + first.series.error.axis + state_suffix(first.series.state);
    const auto reasons = tool_point_reasons(subject, group);
    if (drawn.empty()) {
        Sections none;
        none.opening = {.label = label,
                        .anchor = tool_point_anchor(first),
                        .lead = Text("The effect of the angular error motions at the functional point is not evaluated.")};
        none.sections.push_back({.heading = "Reasons", .parts = {BulletList{reasons}}});
        return none;
    }
    Panels made;
    made.opening = {
        .label = label,
        .anchor = tool_point_anchor(*drawn.front()),
        .lead = tool_point_lead(subject, drawn),
        .body = {}};
    for (const SeriesView* view : drawn) made.panels.push_back(moved_panel(subject, *view));
    const bool straight = std::ranges::any_of(
        drawn, [](const SeriesView* view) { return view->evaluation.kind == evaluate::SeriesKind::Straightness; });
    made.caption = Text("At the functional point along " + first.series.error.axis + ", over the means as measured in pale lines" +
                        (drawn.size() > 1 ? ", on one scale" : "") +
                        (straight ? "; a straightness error about its own line" : "") +
                        ". Numbered ticks show the targets that set each range there; the bracket measures it.");
    made.sections.push_back(measured_and_moved(subject, drawn, earlier_beside(subject, group), reasons));
    made.additional = true;
    return made;
}

/// Whether a page of another state says all of this one beside its own.
bool stands_beside(const Subject& subject, const MovedViews& group) {
    const std::vector<MovedViews> groups = moved_groups(subject.views);
    return std::ranges::any_of(groups, [&](const MovedViews& other) {
        if (drawable_of(other).empty()) return false;
        const MovedViews earlier = earlier_beside(subject, other);
        return !earlier.empty() && earlier.front() == drawable_of(group).front();
    });
}

}  // namespace

std::vector<Block> tool_points(const Subject& subject) {
    std::vector<Block> blocks;
    const auto& views = subject.views;
    for (const MovedViews& group : moved_groups(views)) blocks.push_back(block_of(subject, group));
    return blocks;
}

std::vector<Section> tool_point_numbers(const Subject& subject, const std::vector<std::string>& ids) {
    std::vector<Section> sections;
    for (const MovedViews& group : moved_groups(subject.views)) {
        const MovedViews drawn = drawable_of(group);
        if (drawn.empty() || std::ranges::find(ids, drawn.front()->series.id) == ids.end() || stands_beside(subject, group)) continue;
        Section section = measured_and_moved(subject, drawn, {}, tool_point_reasons(subject, group));
        section.heading += state_suffix(drawn.front()->series.state);
        section.parts.insert(section.parts.begin(), Paragraph{tool_point_lead(subject, drawn)});
        sections.push_back(std::move(section));
    }
    return sections;
}

}  // namespace wayfolio::report
