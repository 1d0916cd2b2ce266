#include "certificate/quantity.hpp"
#include "evaluate/surroundings/environment_record.hpp"
#include "evaluate/numbers/statistics.hpp"
#include "report/words/names.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace wayfolio::certificate {
namespace {

using document::EnvironmentSample;
using document::Series;

/// The structure's word for a state; it has none for a state of the user's own.
std::string_view status_word(std::string_view state) {
    if (state == "as-found") return "beforeAdjustment";
    if (state == "as-left") return "afterAdjustment";
    return {};
}

/// The head of a condition, in an element that is open.
void put_condition_head(Drafting& drafting, const Series& series, const std::string& name, const std::string& description) {
    put_name(drafting.xml, ours(name));
    put_lines(drafting.xml, "dcc:description", {ours(description)});
    if (const auto status = status_word(series.state); !status.empty()) drafting.xml.put("dcc:status", status);
}

void put_condition(Drafting& drafting, const Series& series, const std::string& name, const std::vector<SiQuantity>& quantities,
                   const std::string& description = {}) {
    if (quantities.empty()) return;
    const auto condition = drafting.xml.open("dcc:influenceCondition");
    put_condition_head(drafting, series, name, description);
    const auto data = drafting.xml.open("dcc:data");
    for (const SiQuantity& quantity : quantities) put_quantity(drafting, quantity);
}

void put_text_condition(Drafting& drafting, const Series& series, const std::string& name, const std::vector<Phrase>& lines) {
    if (std::ranges::none_of(lines, [](const Phrase& line) { return is_stated(line.text); })) return;
    const auto condition = drafting.xml.open("dcc:influenceCondition");
    put_condition_head(drafting, series, name, {});
    const auto data = drafting.xml.open("dcc:data");
    put_lines(drafting.xml, "dcc:text", lines);
}

void put_recorded(Drafting& drafting, const Series& series, const std::string& name, const std::vector<double>& values,
                  std::string_view unit, const char* when) {
    if (values.empty()) return;
    const auto [low, high] = std::ranges::minmax(values);
    put_condition(drafting, series, name,
                  {{.name = "lowest", .value = low, .unit = unit},
                   {.name = "mean", .value = evaluate::mean(values), .unit = unit},
                   {.name = "highest", .value = high, .unit = unit}},
                  fmt::format("{} samples {}", values.size(), when));
}

std::vector<double> recorded(const evaluate::EnvironmentSamples& samples, std::optional<double> EnvironmentSample::*member) {
    std::vector<double> values;
    for (const EnvironmentSample* sample : samples)
        if (sample->*member) values.push_back(*(sample->*member));
    return values;
}

/// Sensors of the axis; all of the record where the axis names none.
std::vector<std::string> sensors_of(const Drafting& drafting, const Series& series, const evaluate::EnvironmentSamples& samples) {
    const document::Axis* axis = document::find_axis(drafting.document, series.error.axis);
    if (axis && !axis->sensors.empty()) return axis->sensors;
    std::vector<std::string> all;
    for (const EnvironmentSample* sample : samples)
        for (const auto& [sensor, temperature] : sample->machine_C)
            if (std::ranges::find(all, sensor) == all.end()) all.push_back(sensor);
    return all;
}

void put_surroundings(Drafting& drafting, const Series& series) {
    const auto span = evaluate::span_of(series);
    const auto samples = evaluate::samples_during(drafting.document, span);
    const char* when = span ? "about the time of the runs" : "of the whole record, as the runs state no times";
    put_recorded(drafting, series, "Temperature of the air", recorded(samples, &EnvironmentSample::air_C), si::degree_celsius, when);
    put_recorded(drafting, series, "Pressure of the air", recorded(samples, &EnvironmentSample::pressure_hPa), si::hectopascal, when);
    put_recorded(drafting, series, "Relative humidity of the air", recorded(samples, &EnvironmentSample::humidity_percent), si::percent,
                 when);
    for (const std::string& sensor : sensors_of(drafting, series, samples)) {
        std::vector<double> values;
        for (const EnvironmentSample* sample : samples)
            for (const auto& [name, temperature] : sample->machine_C)
                if (name == sensor) values.push_back(temperature);
        put_recorded(drafting, series, "Temperature of the machine, " + sensor, values, si::degree_celsius, when);
    }
    if (const auto& environment = drafting.document.environment; environment && environment->reference_temperature_C)
        put_condition(drafting, series, "Reference temperature",
                      {{.name = "Reference temperature", .value = environment->reference_temperature_C, .unit = si::degree_celsius}});
}

void put_setup(Drafting& drafting, const Series& series) {
    const auto& setup = drafting.document.setup;
    if (!setup) return;
    if (const document::MeasurementLine* line = document::measurement_line(drafting.document, series)) {
        std::vector<SiQuantity> at;
        for (const auto& [axis, millimetres] : line->at_mm)
            at.push_back({.name = "Position of axis " + axis, .value = millimetres, .unit = si::millimetre});
        put_condition(drafting, series, "Measurement line", at);
    }
    std::vector<SiQuantity> motion;
    if (setup->feed_mm_per_min) motion.push_back({.name = "Feed", .value = setup->feed_mm_per_min, .unit = si::millimetre_per_minute});
    if (setup->feed_deg_per_min)
        motion.push_back({.name = "Feed of rotary axes", .value = setup->feed_deg_per_min, .unit = si::degree_per_minute});
    if (setup->dwell_s) motion.push_back({.name = "Dwell at the targets", .value = setup->dwell_s, .unit = si::second});
    put_condition(drafting, series, "Motion between the targets", motion);
    put_text_condition(drafting, series, "Warm-up", {given(is_stated(series.warm_up) ? series.warm_up : setup->warm_up)});
}

void put_corrections(Drafting& drafting, const Series& series) {
    std::vector<Phrase> lines;
    if (const auto& expansion = series.expansion_correction)
        lines.push_back(
            ours(std::string("expansion of the material: ") + (expansion->applied ? "corrected by the instrument" : "not corrected") +
                 (expansion->coefficient_um_per_m_K ? fmt::format(", coefficient {} µm/(m K)", *expansion->coefficient_um_per_m_K) : "")));
    if (const auto& air = series.air_correction)
        lines.push_back(ours(std::string("refractive index of air: ") +
                             (air->applied ? "corrected by the instrument" : "not corrected") +
                             (is_stated(air->equation) ? ", equation " + air->equation : "")));
    put_text_condition(drafting, series, "Corrections by the instrument", lines);
}

bool has_conditions(const Drafting& drafting, const Series& series) {
    return is_stated(series.state) || is_stated(series.warm_up) || series.expansion_correction || series.air_correction ||
           drafting.document.environment || drafting.document.setup;
}

}  // namespace

void put_conditions(Drafting& drafting, const Series& series) {
    if (!has_conditions(drafting, series)) return;
    const auto list = drafting.xml.open("dcc:influenceConditions");
    put_text_condition(drafting, series, "State of the machine", {ours(report::state_words(series.state))});
    put_surroundings(drafting, series);
    put_setup(drafting, series);
    put_corrections(drafting, series);
}

}  // namespace wayfolio::certificate
