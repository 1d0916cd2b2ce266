#include "report/blocks/tables/tables.hpp"

#include "evaluate/surroundings/axis_length.hpp"
#include "report/words/names.hpp"
#include "report/words/record_time.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

std::string plain(const Subject& subject, double value, int decimals) { return units::number(value, decimals, style_of(subject)); }

std::string length_symbol(const Subject& subject) { return std::string(subject.units.length.symbol); }

/// The air table: a row in µm/m (parts per million of the length), and one for each travel with what is a change.
class AirTable {
public:
    explicit AirTable(const Subject& subject) : subject_(subject) {}
    void level(const std::string& head, double width, double value) { add(head, width, plain(subject_, value, 3), std::nullopt); }
    void change(const std::string& head, double width, double value, int decimals) {
        add(head, width, plain(subject_, value, decimals), value);
    }
    [[nodiscard]] PlainTable of(const std::vector<evaluate::OverTravel>& travels) const {
        PlainTable table{.columns = {{"Refractive index of air", 0.19}}, .rows = {{Text("per metre / µm/m")}}};
        for (const evaluate::OverTravel& over : travels)
            table.rows.push_back(
                {Text(over.axis + ", " + distance_text(subject_, 1000 * over.length_m) + " / " + length_symbol(subject_))});
        for (const Column& column : columns_) {
            table.columns.push_back({column.head, column.width, numbers});
            table.rows[0].emplace_back(column.per_m);
            for (std::size_t i = 0; i < travels.size(); ++i)
                table.rows[i + 1].emplace_back(column.change ? length_number(subject_, *column.change * travels[i].length_m, 2) : no_value);
        }
        return table;
    }

private:
    struct Column {
        std::string head;
        double width;
        std::string per_m;
        std::optional<double> change;
    };
    void add(const std::string& head, double width, const std::string& per_m, std::optional<double> change) {
        columns_.push_back({head, width, per_m, change});
    }
    const Subject& subject_;
    std::vector<Column> columns_;
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
    Section section;
    if (!air) {
        section.heading = "Refractive index of air";
        const auto* reason = std::get_if<evaluate::NotEvaluated>(&subject.evaluation.environment.air);
        if (!subject.document.environment || !reason) return std::nullopt;
        section.parts.emplace_back(Paragraph{Text("Not evaluated: " + reason->reason + ".")});
        return section;
    }
    AirTable table(subject);
    table.level("Ciddor (1996)", 0.13, 1e6 * (air->ciddor - 1));
    table.level("modified Edlén", 0.14, 1e6 * (air->edlen - 1));
    table.change("difference", 0.11, 1e6 * air->difference(), 3);
    table.change("over the record", 0.14, air->change_um_per_m(), 3);
    table.change("per K", 0.09, air->sensitivity.per_K, 3);
    table.change("per hPa", 0.1, air->sensitivity.per_hPa, 3);
    table.change("per % r.h.", 0.1, air->sensitivity.per_percent_humidity, 4);
    section.parts.emplace_back(table.of(air->change_over_travel));
    std::string words = "Index less one by both equations at the mean air of " + std::to_string(air->samples) + " samples: ";
    words += with_unit(plain(subject, air->mean.temperature_C, 2), "°C") + ", ";
    words += with_unit(plain(subject, air->mean.pressure_Pa / 100, 1), "hPa") + ", ";
    words += with_unit(plain(subject, air->mean.humidity_percent, 1), "%") + " relative humidity, ";
    words += with_unit(plain(subject, air->mean.co2_umol_per_mol, 0), "µmol/mol") + " carbon dioxide; difference: Ciddor less Edlén. ";
    words += "Over the record: largest less smallest, by Ciddor; then its change per unit of each. A laser that keeps the index of its "
             "setting reads too long by as much as the index rises.";
    section.parts.emplace_back(Paragraph{Text(words)});
    return section;
}

std::optional<Section> expansion_section(const Subject& subject) {
    if (subject.evaluation.environment.expansion.empty()) return std::nullopt;
    const std::string reference = with_unit(plain(subject, subject.evaluation.environment.expansion[0].reference_C, 0), "°C");
    PlainTable table{.columns = {{"Expansion from " + reference, 0.24},
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
    return Section{.parts = {table, Paragraph{marked("As corrected the readings hold for " + reference +
                                                     ". *u*: of the travel, by the coefficient's own uncertainty; that of the sensors is "
                                                     "in the budget.")}}};
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
    PlainTable table{.columns = {{"Series", 0.125},
                                 {"applied by the instrument, against the record", 0.385},
                                 {"air / µm/m", 0.1},
                                 {"expansion / µm/m", 0.15},
                                 {"travel / " + length_symbol(subject), 0.1},
                                 {"dead path / " + length_symbol(subject), 0.14}}};
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
    return Section{.parts = {table, Paragraph{Text("Positive: the instrument read too long by that much, by the samples taken during the "
                                                   "series. " + corrected_words(subject))}}};
}

std::optional<Section> drift_section(const Subject& subject) {
    if (subject.evaluation.environment.drift.empty()) return std::nullopt;
    PlainTable table{.columns = {{"Environmental variation at rest", 0.25},
                                 {"at / " + std::string(subject.units.linear.symbol), 0.085, numbers},
                                 {"record / min", 0.11, numbers},
                                 {"test / min", 0.09, numbers},
                                 {"E(VE) / " + length_symbol(subject), 0.105, numbers},
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
    return Section{.parts = {table}};
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
