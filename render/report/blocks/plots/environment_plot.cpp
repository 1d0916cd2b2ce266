#include "report/blocks/plots/plots.hpp"

#include "evaluate/surroundings/axis_length.hpp"
#include "evaluate/surroundings/environment_record.hpp"
#include "report/words/names.hpp"
#include "report/words/record_time.hpp"

#include <algorithm>
#include <functional>

namespace wayfolio::report {
namespace {

using document::EnvironmentSample;
using Value = std::function<std::optional<double>(const EnvironmentSample&)>;
using Points = std::vector<std::pair<double, std::optional<double>>>;

/// The samples that have a time, in order of time.
struct TimedSamples {
    RecordClock clock;
    std::vector<std::pair<double, const EnvironmentSample*>> samples;
};

TimedSamples timed(const document::Document& document) {
    const auto& all = document.environment->samples;
    const auto first = std::ranges::find_if(all, [](const EnvironmentSample& sample) { return RecordClock(sample.time).runs(); });
    TimedSamples made{RecordClock(first == all.end() ? "" : first->time), {}};
    for (const EnvironmentSample& sample : all)
        if (const auto minutes = made.clock.minutes(sample.time)) made.samples.emplace_back(*minutes, &sample);
    std::ranges::stable_sort(made.samples, {}, &std::pair<double, const EnvironmentSample*>::first);
    return made;
}

RecordRange range_of(const Points& points) {
    RecordRange range;
    for (const auto& [time, value] : points)
        if (value) range.add(*value);
    return range;
}

/// How the numbers of one panel are written.
struct NumberForm {
    std::string unit;
    int decimals;
    units::NumberStyle style;
    [[nodiscard]] std::string number(double value) const { return units::number(value, decimals, style); }
    [[nodiscard]] std::string between(const RecordRange& range) const {
        return number(range.low) + " to " + with_unit(number(range.high), unit);
    }
};

RecordCurve curve(const std::string& name, Points points, const NumberForm& form) {
    const RecordRange range = range_of(points);
    return {.name = name, .points = std::move(points), .words = Text((name.empty() ? "" : name + ", ") + form.between(range))};
}

Points points_of(const TimedSamples& record, const Value& value) {
    Points points;
    for (const auto& [minutes, sample] : record.samples) points.emplace_back(minutes, value(*sample));
    return points;
}

/// "rises from 20.42 to 21.31 °C", or the range alone where it moves to and fro.
std::string course(const RecordCurve& curve, const NumberForm& form) {
    const RecordRange range = range_of(curve.points);
    const double change = range.last - range.first;
    constexpr double mostly = 0.6;
    if (range.high > range.low && std::abs(change) >= mostly * (range.high - range.low))
        return (change > 0 ? "rises from " : "falls from ") + form.number(range.first) + " to " +
               with_unit(form.number(range.last), form.unit);
    return "stays between " + form.number(range.low) + " and " + with_unit(form.number(range.high), form.unit);
}

/// Collects the panels that have at least two values, and what is said of them.
struct RecordPanels {
    std::vector<RecordPanel> panels;
    std::string said;

    void add(const std::string& name, const std::string& title, std::vector<std::pair<std::string, Points>> curves,
             const NumberForm& form) {
        RecordPanel panel{.title = title + " / " + form.unit};
        for (auto& [sensor, points] : curves) {
            if (range_of(points).count < 2) continue;
            panel.curves.push_back(curve(sensor, std::move(points), form));
            said += " " + capitalised(sensor.empty() ? name : sensor) + " " + course(panel.curves.back(), form) + ".";
        }
        if (!panel.curves.empty()) panels.push_back(std::move(panel));
    }
};

std::vector<std::pair<std::string, Points>> sensor_curves(const TimedSamples& record) {
    std::vector<std::string> sensors;
    for (const auto& [minutes, sample] : record.samples)
        for (const auto& [sensor, value] : sample->machine_C)
            if (std::ranges::find(sensors, sensor) == sensors.end()) sensors.push_back(sensor);
    std::vector<std::pair<std::string, Points>> curves;
    for (const std::string& sensor : sensors) {
        curves.emplace_back(sensor, points_of(record, [&](const EnvironmentSample& sample) -> std::optional<double> {
            const auto found = std::ranges::find(sample.machine_C, sensor, &std::pair<std::string, double>::first);
            return found == sample.machine_C.end() ? std::nullopt : std::optional(found->second);
        }));
    }
    return curves;
}

/// How much longer than at the first sample a laser would read the longest axis if it kept the index of that sample.
void add_air_effect(RecordPanels& into, const evaluate::Evaluation& evaluation, const TimedSamples& record, const Shown& of_lengths) {
    const auto* air = evaluate::value_of(evaluation.environment.air);
    if (!air || air->change_over_travel.empty()) return;
    const auto& longest = *std::ranges::max_element(air->change_over_travel, {}, &evaluate::OverTravel::length_m);
    std::optional<double> first;
    const auto effect = [&](const EnvironmentSample& sample) -> std::optional<double> {
        const auto there = evaluate::air_of(sample);
        if (!there) return std::nullopt;
        const double index = evaluate::ciddor_index(*there, air->vacuum_wavelength_nm / 1000);
        if (!first) first = index;
        return 1e6 * (index - *first) * longest.length_m / of_lengths.unit.in_base;
    };
    const std::string over = longest.axis + " over " + length_text(of_lengths, 1000 * longest.length_m);
    into.add("the effect of the air on " + over, "Effect of the air on " + over, {{"", points_of(record, effect)}},
             {std::string(of_lengths.unit.symbol), of_lengths.decimals, of_lengths.style});
}

void add_drift(RecordPanels& into, const document::Document& document, const RecordClock& clock, const Shown& of_lengths) {
    for (const document::DriftRecord& record : document.drift) {
        Points points;
        for (const auto& [time, um] : record.samples_um)
            if (const auto minutes = clock.minutes(time)) points.emplace_back(*minutes, um / of_lengths.unit.in_base);
        std::ranges::stable_sort(points, {}, &std::pair<double, std::optional<double>>::first);
        const std::string name = record.quantity + " at rest";
        into.add(name, name, {{"", std::move(points)}}, {std::string(of_lengths.unit.symbol), of_lengths.decimals, of_lengths.style});
    }
}

}  // namespace

std::optional<RecordPlot> environment_plot(const document::Document& document, const evaluate::Evaluation& evaluation,
                                           const ShownUnits& shown_in, units::NumberStyle style) {
    if (!document.environment) return std::nullopt;
    const TimedSamples record = timed(document);
    if (record.samples.size() < 2 || !(record.samples.back().first > record.samples.front().first)) return std::nullopt;
    const auto of = [&](auto member) { return points_of(record, [member](const EnvironmentSample& sample) { return sample.*member; }); };
    RecordPanels panels;
    panels.add("air temperature", "Air", {{"", of(&EnvironmentSample::air_C)}}, {"°C", 2, style});
    panels.add("material temperature", "Material", sensor_curves(record), {"°C", 2, style});
    panels.add("pressure", "Pressure", {{"", of(&EnvironmentSample::pressure_hPa)}}, {"hPa", 1, style});
    panels.add("humidity", "Humidity", {{"", of(&EnvironmentSample::humidity_percent)}}, {"%", 0, style});
    // To a tenth of a micrometre, whatever the unit.
    const Shown of_lengths{.unit = shown_in.length,
                           .position = shown_in.linear,
                           .decimals = std::max(0, units::decimals_of_step(0.1 / shown_in.length.in_base)),
                           .style = style};
    add_air_effect(panels, evaluation, record, of_lengths);
    add_drift(panels, document, record.clock, of_lengths);
    if (panels.panels.empty()) return std::nullopt;
    RecordPlot plot{.first_day = date_part(record.samples.front().second->time),
                    .from = record.samples.front().first,
                    .to = record.samples.back().first,
                    .panels = std::move(panels.panels),
                    .lanes = run_lanes(document, record.clock),
                    .sessions = sessions(document, record.clock)};
    for (const RecordPanel& panel : plot.panels)
        for (const RecordCurve& one : panel.curves)
            plot.from = std::min(plot.from, one.points.front().first), plot.to = std::max(plot.to, one.points.back().first);
    for (const RunLane& lane : plot.lanes) plot.from = std::min(plot.from, lane.from), plot.to = std::max(plot.to, lane.to);
    plot.alternative = "Environment " + span_words(plot.first_day, plot.from, plot.to) + ", " + std::to_string(record.samples.size()) +
                       " samples." + panels.said;
    for (const Session& session : plot.sessions)
        plot.alternative += " Runs" + (session.words.empty() ? "" : " " + session.words) + " from " + clock_words(session.from) + " to " +
                            clock_words(session.to) + ".";
    return plot;
}

}  // namespace wayfolio::report
