#include "report/blocks/tables/tables.hpp"

#include "evaluate/surroundings/axis_length.hpp"
#include "report/words/names.hpp"
#include "report/words/record_time.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

std::string plain(const Subject& subject, double value, int decimals) { return units::number(value, decimals, style_of(subject)); }

std::string length_symbol(const Subject& subject) { return std::string(subject.units.length.symbol); }

std::string travel_words(const Subject& subject, const std::string& axis, double length_m) {
    return axis + ", " + distance_text(subject, 1000 * length_m) + " / " + length_symbol(subject);
}

constexpr std::size_t most_axes = 3;  // columns of the air table

/// Rows of the air table: a value in µm/m (parts per million of the length), and over each travel where it is a change.
class AirRows {
public:
    AirRows(const Subject& subject, const evaluate::AirRecord& air) : subject_(subject), air_(air) {
        const auto axes = std::min(most_axes, air.change_over_travel.size());
        table_ = {.columns = {{"Air index", 0.44}, {"µm/m", 0.16, numbers}}};
        for (std::size_t i = 0; i < axes; ++i) {
            const evaluate::OverTravel& over = air.change_over_travel[i];
            table_.columns.push_back({travel_words(subject, over.axis, over.length_m), 0.4 / static_cast<double>(axes), numbers});
        }
    }
    void level(const std::string& name, double value) { add(name, plain(subject_, value, 3), std::nullopt); }
    void change(const std::string& name, double value, int decimals) { add(name, plain(subject_, value, decimals), value); }
    PlainTable take() { return std::move(table_); }

private:
    void add(const std::string& name, const std::string& per_m, std::optional<double> value) {
        std::vector<Text> row{Text(name), Text(per_m)};
        for (std::size_t i = 0; i + 2 < table_.columns.size(); ++i)
            row.emplace_back(value ? length_number(subject_, *value * air_.change_over_travel[i].length_m, 2) : no_value);
        table_.rows.push_back(std::move(row));
    }
    const Subject& subject_;
    const evaluate::AirRecord& air_;
    PlainTable table_;
};

/// A result or the reason why there is none.
Text value_or_reason(const Subject& subject, const std::optional<evaluate::Evaluated<double>>& result,
                     std::string (*number)(const Subject&, double, int) = plain) {
    if (!result) return Text(no_value);
    if (const auto* reason = std::get_if<evaluate::NotEvaluated>(&*result)) return Text().quiet(reason->reason);
    return Text(number(subject, std::get<double>(*result), 2));
}

std::string air_words(const Subject& subject, const document::AirCorrection& air) {
    if (!air.applied) return "no air correction";
    std::vector<std::string> parts;
    if (!air.equation.empty()) parts.push_back(air.equation);
    if (air.air_C) parts.push_back(with_unit(plain(subject, *air.air_C, 1), "°C"));
    if (air.pressure_hPa) parts.push_back(with_unit(plain(subject, *air.pressure_hPa, 1), "hPa"));
    if (air.humidity_percent) parts.push_back(with_unit(plain(subject, *air.humidity_percent, 0), "%"));
    return parts.empty() ? "air correction" : "air by " + listed(parts);
}

std::string expansion_words(const Subject& subject, const document::ExpansionCorrection& expansion) {
    if (!expansion.applied) return "no expansion correction";
    return expansion.coefficient_um_per_m_K
               ? "expansion with " + with_unit(plain(subject, *expansion.coefficient_um_per_m_K, 1), "µm/(m\u202fK)")
               : "expansion correction";
}

}  // namespace

std::string per_metre(const Subject& subject, double value) { return with_unit(plain(subject, value, 2), "µm/m"); }

std::optional<Section> air_section(const Subject& subject) {
    const auto* air = evaluate::value_of(subject.evaluation.environment.air);
    Section section{.heading = "Refractive index of air"};
    if (!air) {
        const auto* reason = std::get_if<evaluate::NotEvaluated>(&subject.evaluation.environment.air);
        if (!subject.document.environment || !reason) return std::nullopt;
        section.parts.emplace_back(Paragraph{Text("Not evaluated: " + reason->reason + ".")});
        return section;
    }
    AirRows rows(subject, *air);
    rows.level("Index less one by Ciddor (1996), at the mean air", 1e6 * (air->ciddor - 1));
    rows.level("Index less one by the modified Edlén equation, there", 1e6 * (air->edlen - 1));
    rows.change("Ciddor less Edlén", 1e6 * air->difference(), 3);
    rows.change("Largest less smallest over the record (Ciddor)", air->change_um_per_m(), 3);
    rows.change("Per kelvin of air temperature", air->sensitivity.per_K, 3);
    rows.change("Per hectopascal of pressure", air->sensitivity.per_hPa, 3);
    rows.change("Per percent of relative humidity", air->sensitivity.per_percent_humidity, 4);
    section.parts.emplace_back(rows.take());
    if (air->change_over_travel.size() > most_axes) {
        std::string others;
        for (std::size_t i = most_axes; i < air->change_over_travel.size(); ++i) {
            const auto& one = air->change_over_travel[i];
            others += (others.empty() ? "" : "; ") + one.axis + ", " + distance_text(subject, 1000 * one.length_m) + ": " +
                      length_words(subject, one.um, 2);
        }
        section.parts.emplace_back(Paragraph{Text("The change over the record on further travels: " + others + ".")});
    }
    section.parts.emplace_back(Paragraph{
        Text("Mean air of " + std::to_string(air->samples) + " samples: " + with_unit(plain(subject, air->mean.temperature_C, 2), "°C") +
             ", " + with_unit(plain(subject, air->mean.pressure_Pa / 100, 1), "hPa") + ", " +
             with_unit(plain(subject, air->mean.humidity_percent, 1), "%") + " relative humidity, " +
             with_unit(plain(subject, air->mean.co2_umol_per_mol, 0), "µmol/mol") +
             " carbon dioxide. A laser that keeps the index of its setting reads too long by as much as the index rises.")});
    return section;
}

std::optional<Section> expansion_section(const Subject& subject) {
    if (subject.evaluation.environment.expansion.empty()) return std::nullopt;
    const std::string reference = with_unit(plain(subject, subject.evaluation.environment.expansion[0].reference_C, 0), "°C");
    PlainTable table{.columns = {{"Axis and sensors", 0.24},
                                 {"mean / °C", 0.11, numbers},
                                 {"range / °C", 0.17, numbers},
                                 {"α / µm/(m\u202fK)", 0.15, numbers},
                                 {"effect / µm/m", 0.13, numbers},
                                 {"travel / " + length_symbol(subject), 0.12, numbers},
                                 {"u / " + length_symbol(subject), 0.08, numbers}}};
    for (const auto& axis : subject.evaluation.environment.expansion) {
        const auto* stated = document::find_axis(subject.document, axis.axis);
        std::string coefficient = plain(subject, axis.coefficient, 1);
        if (stated && stated->expansion && stated->expansion->expanded_uncertainty)
            coefficient += "\u00a0±\u202f" + plain(subject, *stated->expansion->expanded_uncertainty, 1);
        table.rows.push_back({Text(axis.axis + (axis.sensors.empty() ? ", all sensors" : ": " + listed(axis.sensors))),
                              Text(plain(subject, axis.mean_C, 2)),
                              Text(plain(subject, axis.lowest_C, 2) + " to " + plain(subject, axis.highest_C, 2)), Text(coefficient),
                              Text(plain(subject, axis.um_per_m, 2)), Text(axis.um ? length_number(subject, *axis.um, 1) : no_value),
                              Text(axis.standard ? length_number(subject, axis.standard->from_coefficient, 2) : no_value)});
    }
    return Section{.heading = "Expansion from " + reference,
                   .parts = {table, Paragraph{marked("The readings as corrected hold for " + reference +
                                                     ". *u* is the standard uncertainty that the coefficient's own brings to the travel; "
                                                     "how well the sensors know the temperature stands in the budget.")}}};
}

/// Which results are corrected for it: those that the document asks to have corrected for the air, and no others.
std::string corrected_words(const Subject& subject) {
    std::vector<std::string> corrected;
    for (const auto& series : subject.evaluation.series)
        if (series.air_correction && evaluate::value_of(*series.air_correction))
            corrected.push_back(series.error.text() + state_suffix(series.state));
    if (corrected.empty()) return "The results are not corrected for it.";
    return "The results of " + listed(corrected) + " are corrected for the air, as the document asks; nothing else is.";
}

std::optional<Section> applied_section(const Subject& subject) {
    if (subject.evaluation.environment.applied.empty()) return std::nullopt;
    PlainTable table{.columns = {{"Series", 0.15},
                                 {"applied by the instrument", 0.29},
                                 {"air / µm/m", 0.13},
                                 {"expansion / µm/m", 0.15},
                                 {"travel / " + length_symbol(subject), 0.13},
                                 {"dead path / " + length_symbol(subject), 0.15}}};
    for (const auto& applied : subject.evaluation.environment.applied) {
        const auto* series = document::find_series(subject.document, applied.series);
        if (!series) continue;
        std::vector<std::string> words;
        if (series->air_correction) words.push_back(air_words(subject, *series->air_correction));
        if (series->expansion_correction) words.push_back(expansion_words(subject, *series->expansion_correction));
        if (series->dead_path_mm) words.push_back("dead path " + distance_text(subject, *series->dead_path_mm));
        std::string all;
        for (const std::string& word : words) all += (all.empty() ? "" : "; ") + word;
        // A sum that lacks a part would pass for the whole.
        double sum = 0;
        bool known = applied.air_um_per_m || applied.expansion_um_per_m;
        for (const auto* part : {&applied.air_um_per_m, &applied.expansion_um_per_m}) {
            if (!*part) continue;
            if (const auto* value = std::get_if<double>(&**part)) sum += *value;
            else known = false;
        }
        const auto length = evaluate::axis_length_m(subject.document, series->error.axis);
        table.rows.push_back({Text(series->error.text() + state_suffix(series->state)), Text(all),
                              value_or_reason(subject, applied.air_um_per_m), value_or_reason(subject, applied.expansion_um_per_m),
                              Text(known && length ? length_number(subject, sum * *length, 2) : no_value),
                              value_or_reason(subject, applied.dead_path_um, length_number)});
    }
    return Section{.heading = "Applied by the instrument, against the record",
                   .parts = {table, Paragraph{Text("Positive: the instrument read too long by that much, by the samples taken during the "
                                                   "series. " + corrected_words(subject))}}};
}

std::optional<Section> drift_section(const Subject& subject) {
    if (subject.evaluation.environment.drift.empty()) return std::nullopt;
    PlainTable table{.columns = {{"At rest", 0.12},
                                 {"at / " + std::string(subject.units.linear.symbol), 0.12, numbers},
                                 {"record / min", 0.14, numbers},
                                 {"test / min", 0.13, numbers},
                                 {"E(VE) / " + length_symbol(subject), 0.13, numbers},
                                 {"u of one reading / " + length_symbol(subject), 0.18, numbers},
                                 {"as long as the test", 0.18}}};
    for (const auto& drift : subject.evaluation.environment.drift) {
        const auto minutes = [&](const std::optional<double>& value) { return Text(value ? plain(subject, *value, 0) : no_value); };
        const Text covers = !drift.covers_test ? Text().quiet("not known") : *drift.covers_test ? Text("yes") : Text().strong("no");
        table.rows.push_back(
            {Text(drift.quantity),
             Text(plain(subject, drift.at_mm / subject.units.linear.in_natural, subject.units.linear == units::position_inch ? 1 : 0)),
             minutes(drift.minutes), minutes(drift.test_minutes), Text(length_number(subject, drift.um, 2)),
             Text(length_number(subject, drift.standard_um, 2)), covers});
    }
    return Section{.heading = "Environmental variation error", .parts = {table}};
}

PlainTable environment_table(const Subject& subject) {
    std::vector<std::pair<std::string, RecordRange>> ranges;
    const auto add = [&](const std::string& name, const std::optional<double>& value) {
        if (!value) return;
        auto found = std::ranges::find(ranges, name, &std::pair<std::string, RecordRange>::first);
        if (found == ranges.end()) found = ranges.insert(ranges.end(), {name, RecordRange{}});
        found->second.add(*value);
    };
    for (const auto& sample : subject.document.environment->samples) {
        add("Air / °C", sample.air_C);
        add("Pressure / hPa", sample.pressure_hPa);
        add("Humidity / %", sample.humidity_percent);
        for (const auto& [sensor, value] : sample.machine_C) add(sensor + " / °C", value);
    }
    PlainTable table{.columns = {
        {"Quantity", 0.35}, {"first", 0.13, numbers}, {"last", 0.13, numbers}, {"lowest", 0.13, numbers},
        {"highest", 0.13, numbers}, {"samples", 0.13, numbers}}};
    for (const auto& [name, range] : ranges) {
        const auto cell = [&](double value) {
            return Text(plain(subject, value, name.starts_with("Humidity") ? 0 : name.starts_with("Pressure") ? 1 : 2));
        };
        table.rows.push_back(
            {Text(name), cell(range.first), cell(range.last), cell(range.low), cell(range.high), Text(std::to_string(range.count))});
    }
    return table;
}

}  // namespace wayfolio::report
