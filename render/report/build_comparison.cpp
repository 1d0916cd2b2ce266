#include "report/build.hpp"

#include "compare/comparison.hpp"
#include "report/blocks/blocks.hpp"
#include "report/blocks/plots/plots.hpp"
#include "report/blocks/tables/tables.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"
#include "report/words/verdicts.hpp"
#include "units/version.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <stdexcept>
#include <utility>

namespace wayfolio::report {
namespace {

using compare::Comparison;
using compare::ParameterChange;
using evaluate::SeriesKind;

/// A series of the new side and its counterpart.
struct Counterparts {
    SeriesView was, now;
    const ParameterChange* headline;  ///< nullptr: neither side has such a parameter
};

/// Whether anything of the series is another than it was: what is the same needs no figure.
bool moved(const Comparison& changes, const std::string& series) {
    return std::ranges::any_of(changes.readings, [&](const auto& readings) { return readings.series == series; }) ||
           std::ranges::any_of(changes.parameters,
                               [&](const ParameterChange& change) { return change.series == series && change.differs(); });
}

const ParameterChange* headline_change(const Comparison& changes, const SeriesView& now) {
    const std::string name = headline_parameter(now.series, now.evaluation);
    const auto found = std::ranges::find_if(
        changes.parameters, [&](const ParameterChange& change) { return change.series == now.series.id && change.parameter == name; });
    return found == changes.parameters.end() ? nullptr : &*found;
}

std::vector<Counterparts> moved_series(const Subject& was, const Subject& now, const Comparison& changes) {
    const auto &before = was.views, &after = now.views;
    std::vector<Counterparts> all;
    for (const compare::SeriesPair& pair : compare::paired(was.evaluation, now.evaluation)) {
        const auto view = [](const std::vector<SeriesView>& views, const evaluate::SeriesEvaluation* of) {
            return std::ranges::find_if(views, [&](const SeriesView& one) { return &one.evaluation == of; });
        };
        const auto old_view = view(before, pair.was), new_view = view(after, pair.now);
        if (old_view == before.end() || new_view == after.end() || !moved(changes, new_view->series.id)) continue;
        all.push_back({*old_view, *new_view, headline_change(changes, *new_view)});
    }
    return all;
}

bool has_curve(const SeriesView& view) {
    return std::ranges::any_of(view.evaluation.targets, [](const auto& target) {
        return target.one_way.positive.mean || target.one_way.negative.mean || target.mean;
    });
}

/// The new means over the old: no runs, bands, ticks or brackets, which would be those of one of them.
DeviationPlot overlaid(const Subject& was, const Subject& now, const Counterparts& pair) {
    DeviationPlot plot = deviation_plot(now.document, pair.now.series, pair.now.evaluation, pair.now.shown);
    DeviationPlot old = deviation_plot(was.document, pair.was.series, pair.was.evaluation, pair.now.shown);
    const bool has_directions =
        std::ranges::any_of(plot.targets, [](const auto& target) { return target.one_way.positive.mean || target.one_way.negative.mean; });
    for (auto& target : plot.targets) {
        target.one_way.positive.s = target.one_way.negative.s = std::nullopt;
        if (has_directions) target.mean.reset();
    }
    plot.runs.clear();
    plot.excluded.clear();
    plot.brackets.clear();
    plot.ticks.clear();
    plot.trace.clear();
    plot.limit.reset();
    plot.bands = false;
    plot.pale_means = {.words = "means, old", .targets = std::move(old.targets)};
    plot.alternative =
        "The means of the new result over those of the old, in pale lines. New: " + plot.alternative + " Old: " + old.alternative;
    return plot;
}

std::vector<std::pair<Text, Text>> change_rows(const Counterparts& pair) {
    if (!pair.headline) return {};
    const ChangeNumbers numbers = change_numbers(*pair.headline, pair.now.shown);
    std::vector<std::pair<Text, Text>> rows{
        {Text("old"), Text(numbers.was)}, {Text("new"), Text().strong(numbers.now)}, {Text("change"), Text(numbers.change)}};
    if (pair.headline->expanded_was) rows.emplace_back(marked("*U* old"), Text(numbers.U_was));
    if (pair.headline->expanded_now) rows.emplace_back(marked("*U* new"), Text(numbers.U_now));
    return rows;
}

Panel panel_of_pair(const Subject& was, const Subject& now, const Counterparts& pair) {
    const std::string parameter = headline_parameter(pair.now.series, pair.now.evaluation), symbol = parameter_symbol(parameter);
    const std::string unit = std::string(pair.now.shown.unit.symbol);
    Panel panel{
        .anchor = opening_anchor(pair.now.series.id),
        .name = quantity_title(now.document, pair.now.series.error),
        .title = "deviation / " + unit,
        .plot = overlaid(was, now, pair),
        .table_title = (symbol.empty() ? capitalised(parameter_words(parameter, pair.now.evaluation.standard)) : symbol) + " / " + unit,
        .rows = change_rows(pair)};
    if (pair.headline && pair.headline->against_U) {
        const std::string times = change_numbers(*pair.headline, pair.now.shown).of_U;
        panel.notes.push_back(*pair.headline->against_U > 1 ? marked("The change is **" + times + " times** its uncertainty.")
                                                            : Text("The change is " + times + " times its uncertainty."));
    }
    return panel;
}

enum class PanelKind { Positioning, Straightness, Angle };

PanelKind panel_kind(const SeriesView& view) {
    switch (view.evaluation.kind) {
        case SeriesKind::Positioning: return PanelKind::Positioning;
        case SeriesKind::Straightness:
        case SeriesKind::AngleSteps: return PanelKind::Straightness;
        case SeriesKind::Angle: return PanelKind::Angle;
    }
    throw std::logic_error("no such kind of series");
}

std::string panel_kind_words(PanelKind kind) {
    switch (kind) {
        case PanelKind::Positioning: return "Positioning";
        case PanelKind::Straightness: return "Straightness";
        case PanelKind::Angle: return "Angles";
    }
    throw std::logic_error("no such kind of panel");
}

/// Series of one kind, axis and state share a page and a scale.
std::vector<std::vector<Counterparts>> page_groups(const std::vector<Counterparts>& all) {
    const auto fits = [](const Counterparts& first, const Counterparts& pair) {
        return panel_kind(first.now) == panel_kind(pair.now) && same_axis_and_state(first.now, pair.now);
    };
    return grouped(all, fits, most_panels);
}

/// The quantity of a page that changed most against its uncertainty.
Text group_lead(const Subject& now, const std::vector<Counterparts>& group) {
    const auto weight = [](const Counterparts& pair) {
        return pair.headline && pair.headline->against_U ? *pair.headline->against_U : -1.0;
    };
    const Counterparts& most = *std::ranges::max_element(group, {}, weight);
    if (!most.headline || !most.headline->was || !most.headline->now) return Text("Old and new means on one scale.");
    const ChangeNumbers numbers = change_numbers(*most.headline, most.now.shown);
    const std::string name = capitalised(quantity_in_a_sentence(now.document, most.now.series.error));
    if (numbers.was == numbers.now) return Text(name + " stayed at " + with_unit(numbers.now, most.now.shown.unit.symbol) + ".");
    return Text(name + (group.size() > 1 ? " changed most: " : " went ") + "from " + numbers.was + " to " +
                with_unit(numbers.now, most.now.shown.unit.symbol) + ".");
}

Panels overlay_page(const Subject& was, const Subject& now, const std::vector<Counterparts>& group, const Comparison& changes,
                    std::size_t number) {
    const SeriesView& first = group.front().now;
    Panels made;
    made.opening = {.label = panel_kind_words(panel_kind(first)) + " of " + first.series.error.axis + state_suffix(first.series.state) +
                             ", old and new",
                    .anchor = opening_anchor(first.series.id),
                    .lead = group_lead(now, group)};
    made.figure_number = "Figure " + std::to_string(number);
    for (const Counterparts& pair : group) {
        made.panels.push_back(panel_of_pair(was, now, pair));
        made.sections.push_back(parameters_section(now, pair.now, changes));
    }
    made.caption = Text("New means, over the old in pale lines" + std::string(group.size() > 1 ? "; all on one scale." : "."));
    if (panel_kind(first) == PanelKind::Straightness) made.caption.plain(" Each about its own reference line.");
    if (panel_kind(first) == PanelKind::Angle) made.caption.plain(" Each about its own mean.");
    return made;
}

/// Means of now less those of before, at the places that have both; nothing where there is no such place or nothing moved.
std::optional<Panel> moved_panel(const Subject& was, const Subject& now, const Counterparts& pair) {
    DeviationPlot plot = overlaid(was, now, pair);
    const std::vector<evaluate::TargetEvaluation> before = std::move(plot.pale_means->targets);
    plot.pale_means.reset();
    std::optional<std::pair<Position, Deviation>> largest;
    std::string approach;  // of the largest
    const auto less = [&](std::optional<Deviation>& mean, const std::optional<Deviation>& old, const Position& at, const char* words) {
        mean = mean && old ? std::optional(*mean - *old) : std::nullopt;
        if (!mean || (largest && abs(*mean) <= abs(largest->second))) return;
        largest = std::pair(at, *mean);
        approach = words;
    };
    for (auto& target : plot.targets) {
        const auto old = std::ranges::find_if(before, [&](const auto& one) { return one.position == target.position; });
        const evaluate::TargetEvaluation none{.index = 0, .position = target.position, .written = 0};
        const evaluate::TargetEvaluation& there = old == before.end() ? none : *old;
        less(target.one_way.positive.mean, there.one_way.positive.mean, target.position, ", positive approach");
        less(target.one_way.negative.mean, there.one_way.negative.mean, target.position, ", negative approach");
        less(target.mean, there.mean, target.position, "");
    }
    constexpr double nothing = 1e-6;  // of the shown unit: what a conversion between units rounds
    if (!largest || std::abs(largest->second.in(pair.now.shown.unit)) < nothing) return std::nullopt;
    const std::string unit(pair.now.shown.unit.symbol);
    const std::string most = with_unit(number_of(pair.now.shown, largest->second, pair.now.shown.statistics_decimals), unit) + " at " +
                             position_text(pair.now.shown, largest->first) + approach;
    plot.series_id = "moved-" + plot.series_id;
    plot.alternative =
        "How far the means of " + series_title(now.document, pair.now.series) + " moved, new less old; the most by " + most + ".";
    return Panel{.anchor = "moved-" + pair.now.series.id,
                 .name = "Where the means of " + pair.now.series.error.text() + " moved",
                 .title = "new less old / " + unit,
                 .plot = std::move(plot),
                 .notes = {Text("Largest: " + most + ".")}};
}

/// How far the means moved, on a scale of their own: the next pages show both on the scale of the error.
std::vector<Panels> moved_pages(const Subject& was, const Subject& now, const std::vector<Counterparts>& drawn) {
    std::vector<Panels> pages;
    const auto fits = [](const Counterparts& first, const Counterparts& pair) {
        return first.now.shown.unit == pair.now.shown.unit && same_axis_and_state(first.now, pair.now);
    };
    for (const auto& group : grouped(drawn, fits, most_panels)) {
        Panels made;
        for (const Counterparts& pair : group)
            if (auto panel = moved_panel(was, now, pair)) made.panels.push_back(std::move(*panel));
        if (made.panels.empty()) continue;
        const SeriesView& first = group.front().now;
        made.opening = {.label = "Where the means moved along " + first.series.error.axis + state_suffix(first.series.state),
                        .anchor = made.panels.front().anchor};
        const char* scale = made.panels.size() > 1 ? ", on one scale." : ".";
        made.additional = true;
        made.caption = Text("Means of the new result less those of the old" + std::string(scale));
        pages.push_back(std::move(made));
    }
    return pages;
}

std::string job_name(const document::Job& job) {
    return (job.number.empty() ? "a result without number" : job.number) + revision_suffix(job);
}

RunningText running_of(const document::Job& was, const document::Job& now) {
    RunningText text;
    text.head_left = "Comparison of " + job_name(was) + " with " + job_name(now);
    text.foot_left = "wayfolio " + std::string(version());
    text.foot_right = now.data_notice.empty() ? was.data_notice : now.data_notice;
    if (was.status == document::Status::Draft || now.status == document::Status::Draft) text.draft = "Draft";
    return text;
}

}  // namespace

Model build_comparison(const Subject& was, const Subject& now, const Comparison& changes, const Causes& causes) {
    Model model;
    model.running = running_of(was.document.job, now.document.job);
    model.title = model.subject = model.running.head_left;
    model.author = now.document.job.laboratory ? now.document.job.laboratory->name : "";
    model.created = !now.document.job.issued.empty() ? now.document.job.issued : now.document.job.measured_to;
    Sections summary;
    summary.opening = {.label = "What changed",
                       .anchor = "changes",
                       .lead = comparison_lead(now, changes),
                       .body = comparison_body(now, changes)};
    summary.sections = changes_sections(was, now, changes, causes);
    Sections rest{.opening = {.label = "What was compared", .anchor = "compared"}, .sections = compared_sections(was, now, changes)};
    std::vector<Counterparts> drawn;
    for (Counterparts& pair : moved_series(was, now, changes)) {
        // Without curves (stated results, a trace alone) the numbers stand here.
        if (has_curve(pair.was) && has_curve(pair.now)) drawn.push_back(std::move(pair));
        else rest.sections.push_back(parameters_section(now, pair.now, changes));
    }
    add_section(rest.sections, squareness_changes_section(now, changes));
    std::vector<Panels> moved = moved_pages(was, now, drawn);
    // Where curves moved, they stand below what moved them.
    if (moved.empty()) std::ranges::move(std::exchange(rest.sections, {}), std::back_inserter(summary.sections));
    model.blocks.emplace_back(std::move(summary));
    std::size_t number = 0;
    for (Panels& page : moved) {
        page.figure_number = "Figure " + std::to_string(++number);
        model.blocks.emplace_back(std::move(page));
    }
    if (!rest.sections.empty()) model.blocks.emplace_back(std::move(rest));
    for (const auto& group : page_groups(drawn)) model.blocks.emplace_back(overlay_page(was, now, group, changes, ++number));
    return model;
}

}  // namespace wayfolio::report
