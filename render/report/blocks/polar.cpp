#include "report/blocks/blocks.hpp"

#include "report/blocks/plots/plots.hpp"
#include "report/words/names.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::report {
namespace {

using evaluate::TargetEvaluation;

constexpr double quarter_turn = 90, whole_turn = 360;

double degrees_of(const Position& position) { return position.in(units::position_degree); }

std::string degrees_text(const SeriesView& view, double degrees) {
    constexpr int most = 2;
    const double scaled = degrees * 10;
    const int decimals = degrees == std::round(degrees) ? 0 : scaled == std::round(scaled) ? 1 : most;
    return units::number(degrees, decimals, view.shown.style) + "°";
}

/// Two targets a whole number of turns apart, the first and the last of such: where the circle ought to close.
struct Closure {
    const TargetEvaluation *first, *last;
    Deviation gap;  ///< last less first
};

std::optional<Closure> closure_of(const SeriesView& view) {
    const auto& targets = view.evaluation.targets;
    for (auto last = targets.rbegin(); last != targets.rend(); ++last) {
        for (const TargetEvaluation& first : targets) {
            const double turns = (degrees_of(last->position) - degrees_of(first.position)) / whole_turn;
            constexpr double slack = 1e-9;
            if (turns < 0.5 || std::abs(turns - std::round(turns)) > slack || !first.trace_mean() || !last->trace_mean()) continue;
            return Closure{&first, &*last, *last->trace_mean() - *first.trace_mean()};
        }
    }
    return std::nullopt;
}

std::string which_mean(const SeriesView& view) {
    const auto& targets = view.evaluation.targets;
    if (std::ranges::any_of(targets, [](const auto& t) { return t.mean.has_value(); })) return "the mean bi-directional deviation";
    return std::ranges::any_of(targets, [](const auto& t) { return t.one_way.positive.mean.has_value(); })
               ? "the mean of the positive approach"
               : "the mean of the negative approach";
}

Text polar_lead(const SeriesView& view) {
    const TargetEvaluation *lowest = nullptr, *highest = nullptr;
    for (const TargetEvaluation& target : view.evaluation.targets) {
        const auto& mean = target.trace_mean();
        if (!mean) continue;
        if (!lowest || *mean < *lowest->trace_mean()) lowest = &target;
        if (!highest || *mean > *highest->trace_mean()) highest = &target;
    }
    const auto at = [&](const TargetEvaluation& target) {
        return with_unit(result_number(view.shown, *target.trace_mean(), view.shown.decimals), view.shown.unit.symbol) + " at " +
               degrees_text(view, degrees_of(target.position));
    };
    Text lead(capitalised(which_mean(view)) + " runs from " + at(*lowest) + " to " + at(*highest));
    if (const auto closure = closure_of(view))
        lead.plain("; " + degrees_text(view, degrees_of(closure->first->position)) + "\u00a0and\u00a0" +
                   degrees_text(view, degrees_of(closure->last->position)) + " differ by " +
                   with_unit(result_number(view.shown, units::abs(closure->gap), view.shown.decimals), view.shown.unit.symbol));
    return lead.plain(".");
}

/// The nearest target to a principal position, if it stands there.
const TargetEvaluation* target_at(const SeriesView& view, double degrees) {
    for (const TargetEvaluation& target : view.evaluation.targets) {
        constexpr double slack = 1e-6;
        if (std::abs(degrees_of(target.position) - degrees) < slack) return &target;
    }
    return nullptr;
}

PlainTable principal_table(const SeriesView& view) {
    const std::string unit = " / " + std::string(view.shown.unit.symbol);
    PlainTable table{.columns = {
        {"Position", 0.22}, {"target", 0.14, numbers}, {"positive" + unit, 0.16, numbers},
        {"negative" + unit, 0.16, numbers}, {"both" + unit, 0.14, numbers}, {"reversal value" + unit, 0.18, numbers}}};
    const auto cell = [&](const std::optional<Deviation>& value) {
        return Text(value ? number_of(view.shown, *value, view.shown.statistics_decimals) : no_value);
    };
    const double first = degrees_of(view.evaluation.targets.front().position), last = degrees_of(view.evaluation.targets.back().position);
    for (double at = std::ceil(first / quarter_turn) * quarter_turn; at <= last; at += quarter_turn) {
        const TargetEvaluation* target = target_at(view, at);
        if (!target)
            table.rows.push_back({Text(degrees_text(view, at)), Text().quiet("not measured"), Text(no_value), Text(no_value),
                                  Text(no_value), Text(no_value)});
        else
            table.rows.push_back({Text(degrees_text(view, at)), Text(std::to_string(target->index + 1)),
                                  cell(target->one_way.positive.mean), cell(target->one_way.negative.mean), cell(target->mean),
                                  cell(target->reversal)});
    }
    return table;
}

/// Brackets measure heights and have no place on a circle; neither have limits, whose zone is centred on the extremes.
DeviationPlot polar_plot(const Subject& subject, const SeriesView& view) {
    DeviationPlot plot = judged_plot(subject, view);
    plot.series_id = "polar-" + view.series.id;
    plot.brackets.clear();
    plot.limit.reset();
    plot.alternative =
        "Polar plot of the same deviations, 0 degrees to the right, positive positions counter-clockwise. " + plot.alternative;
    return plot;
}

}  // namespace

bool goes_round(const evaluate::SeriesEvaluation& series) {
    if (series.kind != evaluate::SeriesKind::Positioning || !series.error.axis_is_rotary()) return false;
    constexpr std::size_t fewest = 3;
    if (series.targets.size() < fewest || std::ranges::none_of(series.targets, [](const auto& t) { return t.trace_mean().has_value(); }))
        return false;
    return degrees_of(series.targets.back().position) - degrees_of(series.targets.front().position) > quarter_turn;
}

std::vector<PolarOpening> polar_openings(const Subject& subject) {
    std::vector<PolarOpening> all;
    for (const SeriesView& view : subject.views) {
        if (!goes_round(view.evaluation)) continue;
        PolarOpening made;
        made.opening = {.label = series_title(subject.document, view.series) + ", polar plot",
                        .anchor = "polar-" + view.series.id, .lead = polar_lead(view)};
        made.caption = Text("Deviation about axis " + view.series.error.axis +
                            ": outwards is positive, the dark ring is zero. 0° is to the right; positive positions run "
                            "counter-clockwise, as seen when the axis points at the reader.");
        made.plot = polar_plot(subject, view);
        made.runs_per_direction = runs_each_way(view.evaluation);
        PlainTable principal = principal_table(view);
        if (!principal.rows.empty()) made.sections.push_back({.heading = "Principal positions", .parts = {std::move(principal)}});
        all.push_back(std::move(made));
    }
    return all;
}

}  // namespace wayfolio::report
