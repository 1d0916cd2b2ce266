#include "report/blocks/plots/plots.hpp"

#include "report/words/names.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

using document::EnvironmentSample;

/// Targets that every run has a reading of: means over others could not be compared.
std::vector<const evaluate::TargetEvaluation*> targets_of_all(const SeriesView& view) {
    std::vector<const evaluate::TargetEvaluation*> common;
    for (const auto& target : view.evaluation.targets)
        if (std::ranges::all_of(view.series.runs, [&](const document::Run& run) { return run.used(target.index).has_value(); }))
            common.push_back(&target);
    return common;
}

Deviation mean_of_run(const SeriesView& view, const document::Run& run, const std::vector<const evaluate::TargetEvaluation*>& targets) {
    Deviation sum(0.0, view.shown.unit);
    for (const auto* target : targets) sum = sum + *run.used(target->index) + view.evaluation.air_at(target->position);
    return sum / static_cast<double>(targets.size());
}

/// The mean of the sensors on the axis, of all where it names none.
std::optional<double> material_of(const document::Document& document, const document::ErrorSymbol& error, const EnvironmentSample& sample) {
    const document::Axis* axis = document::find_axis(document, error.axis);
    double sum = 0;
    std::size_t count = 0;
    for (const auto& [sensor, value] : sample.machine_C) {
        if (axis && !axis->sensors.empty() && std::ranges::find(axis->sensors, sensor) == axis->sensors.end()) continue;
        sum += value;
        ++count;
    }
    return count > 0 ? std::optional(sum / static_cast<double>(count)) : std::nullopt;
}

/// A curve of what was recorded while the series was read; empty with fewer than two values.
template <class Value>
RecordCurve temperature(const std::string& name, const document::Document& document, const RecordClock& clock, const RunOrder& order,
                        units::NumberStyle style, Value value) {
    std::vector<std::pair<double, double>> all;
    for (const EnvironmentSample& sample : document.environment->samples) {
        const auto minutes = clock.minutes(sample.time);
        if (const std::optional<double> found = value(sample); minutes && found) all.emplace_back(*minutes, *found);
    }
    std::ranges::stable_sort(all, {}, [](const auto& point) { return point.first; });
    RecordCurve curve{.name = name, .points = {}, .words = {}};
    RecordRange range;
    const auto add = [&](double minutes, double found) {
        curve.points.emplace_back(minutes, found);
        range.add(found);
    };
    for (std::size_t i = 0; i < all.size(); ++i) {
        const auto& [minutes, found] = all[i];
        if (i > 0)  // the line runs on to the next sample outside
            for (const double end : {order.record.from, order.record.to})
                if (all[i - 1].first < end && end < minutes)
                    add(end, all[i - 1].second + (found - all[i - 1].second) * (end - all[i - 1].first) / (minutes - all[i - 1].first));
        if (minutes >= order.record.from && minutes <= order.record.to) add(minutes, found);
    }
    if (range.count < 2) return {};
    const std::string low = units::number(range.low, 1, style), high = units::number(range.high, 1, style);
    curve.words = Text(name + ", " + with_unit(low == high ? low : low + " to " + high, "°C"));
    return curve;
}

void add_temperatures(RunOrder& order, const Subject& subject, const SeriesView& view, const RecordClock& clock) {
    if (!subject.document.environment) return;
    const auto style = style_of(subject);
    RecordPanel panel{.title = "Temperature / °C", .curves = {}};
    const auto add = [&](const std::string& name, auto value) {
        RecordCurve curve = temperature(name, subject.document, clock, order, style, value);
        if (!curve.points.empty()) panel.curves.push_back(std::move(curve));
    };
    add("air", [](const EnvironmentSample& sample) { return sample.air_C; });
    add("material", [&](const EnvironmentSample& sample) { return material_of(subject.document, view.series.error, sample); });
    if (!panel.curves.empty()) order.record.panels.push_back(std::move(panel));
}

/// By how much runs of one approach differ at most, as printed.
std::string spread_words(const RunOrder& order, const Shown& shown) {
    std::optional<Deviation> most;
    for (const auto approach : document::both_approaches)
        for (const auto& one : order.runs)
            for (const auto& other : order.runs)
                if (one.approach == approach && other.approach == approach && (!most || one.mean - other.mean > *most))
                    most = one.mean - other.mean;
    return most ? value_text(shown, *most, shown.statistics_decimals) : std::string();
}

}  // namespace

std::optional<RunOrder> run_order(const Subject& subject, const SeriesView& view) {
    constexpr std::size_t least_runs = 2;
    const auto& runs = view.series.runs;
    const auto targets = targets_of_all(view);
    if (runs.size() < least_runs || targets.empty() || view.series.unit.dimension != view.shown.unit.dimension) return std::nullopt;
    const RecordClock clock(runs.front().started);
    RunOrder order{.runs = {}, .unit = view.shown.unit, .record = {}, .words = {}, .alternative = {}};
    for (const document::Run& run : runs) {
        const auto from = clock.minutes(run.started), to = clock.minutes(run.ended);
        if (!from || !to || !(*to > *from)) return std::nullopt;
        order.runs.push_back({*from, *to, run.approach, mean_of_run(view, run, targets)});
    }
    std::ranges::stable_sort(order.runs, {}, &RunOrder::Run::from);
    const double first = order.runs.front().from, last = std::ranges::max(order.runs, {}, &RunOrder::Run::to).to;
    constexpr double beside = 0.02;  // of the time, free at either end
    order.record.first_day = date_part(runs.front().started);
    order.record.from = first - beside * (last - first);
    order.record.to = last + beside * (last - first);
    add_temperatures(order, subject, view, clock);
    order.words = {Text("mean of each run, local time"),
                   Text().quiet("runs of one approach differ by at most " + spread_words(order, view.shown))};
    if (targets.size() < view.evaluation.targets.size())
        order.words.push_back(Text().quiet("over the " + std::to_string(targets.size()) + " targets that all runs have"));
    order.alternative = "Means of " + count_word(order.runs.size()) + " runs of " + series_name(view.series) +
                        " in the order of reading; " + order.words[1].words() + ".";
    for (const RecordPanel& panel : order.record.panels)
        for (const RecordCurve& curve : panel.curves) order.alternative += " " + capitalised(curve.words.words()) + ".";
    return order;
}

}  // namespace wayfolio::report
