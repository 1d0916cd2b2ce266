#include "evaluate/written/compensation_text.hpp"

#include "evaluate/written/json_parts.hpp"
#include "units/number_text.hpp"
#include "units/version.hpp"

#include <fmt/format.h>

#include <cmath>

namespace wayfolio::evaluate {

namespace {

using units::shortest;

constexpr int format_version = 1;

std::string amount(double value, std::string_view unit) { return fmt::format("{} {}", shortest(table_number(value)), unit); }

/// For people who read the file's head; the JSON has the whole number.
std::string three_decimals(double value) {
    constexpr double thousandths = 1000;
    return fmt::format("{:.3f}", std::round(value * thousandths) / thousandths + 0.0);  // + 0: never "-0.000"
}

/// "K-2041, revision 1"
std::string job_words(const document::Document& document) {
    const auto& job = document.job;
    std::string words = job.number.empty() ? "without a number" : job.number;
    if (job.revision) words += fmt::format(", revision {}", *job.revision);
    return words;
}

/// A correction in the unit of the positions: 3 µm are 0.003 mm, 3.6 arcsec are 0.001 deg.
double in_position_unit(const CompensationEvaluation& made, Deviation correction) {
    if (correction.dimension() == units::Dimension::Angle) return correction.in(units::degree);
    return correction.in(units::millimetre) / made.position_unit.in_natural;
}

const CompensationPoint& largest_point(const CompensationTable& table) {
    const CompensationPoint* largest = &table.points.front();
    for (const CompensationPoint& point : table.points)
        if (units::abs(point.correction) > units::abs(largest->correction)) largest = &point;
    return *largest;
}

std::string column(const CompensationEvaluation& made, const CompensationTable& table, std::string_view form) {
    const std::string side = table.approach ? fmt::format("_{}", word(*table.approach)) : "";
    return fmt::format("{}{}_{}", form, side, made.unit.spelling);
}

/// A name with a line break must not end the comment.
std::string one_line(std::string words) {
    for (char& letter : words)
        if (letter == '\n' || letter == '\r') letter = ' ';
    return words;
}

void add_head(std::string& text, const CompensationEvaluation& made, const document::Document& document) {
    const auto line = [&](const std::string& words) { text += "# " + one_line(words) + "\n"; };
    line(fmt::format("Compensation table of axis {}, from series {} of job {}", made.axis, made.series, job_words(document)));
    line(fmt::format("wayfolio-compensation {}, by wayfolio {}", format_version, version()));
    if (!document.job.data_notice.empty()) line(document.job.data_notice);
    if (document.job.status == document::Status::Draft) line("Draft");
    for (const std::string& reason : made.refused) line("No table: " + reason);
    if (!made.refused.empty()) return;
    line(fmt::format(
        "Positions in {}, corrections in {}; correction: what is added there; change: of the correction from the point before, 0 at the "
        "first",
        made.position_unit.spelling, made.unit.spelling));
    line(fmt::format("Points every {}, rounded to {}", amount(made.spacing, made.position_unit.spelling),
                     amount(made.increment, made.unit.spelling)));
    line(worked_line(made));
    if (made.reversal)
        line(fmt::format("Reversal {}: added to the commanded position in the negative approach",
                         amount(made.reversal->in(made.unit), made.unit.spelling)));
    for (const std::string& caution : compensation_cautions()) line(caution);
    for (const std::string& remark : made.remarks) line(remark);
    for (const Parameter& parameter : made.predicted)
        if (const Deviation* value = value_of(parameter.value))
            line(fmt::format("Predicted, measure again: {} {} {}", parameter.name, three_decimals(value->in(made.unit)),
                             made.unit.spelling));
}

void add_rows(std::string& text, const CompensationEvaluation& made) {
    text += fmt::format("position_{}", made.position_unit.spelling);
    for (const CompensationTable& table : made.tables)
        text += fmt::format(",{},{}", column(made, table, "correction"), column(made, table, "change"));
    text += "\n";
    for (std::size_t i = 0; i < made.tables.front().points.size(); ++i) {
        text += shortest(table_number(made.tables.front().points[i].position.in(made.position_unit)));
        for (const CompensationTable& table : made.tables)
            text += fmt::format(",{},{}", shortest(table_number(table.points[i].correction.in(made.unit))),
                                shortest(table_number(table.points[i].change.in(made.unit))));
        text += "\n";
    }
}

}  // namespace

std::string worked_line(const CompensationEvaluation& made) {
    if (made.tables.empty()) return {};
    const CompensationPoint& point = largest_point(made.tables.front());
    const std::string_view unit = made.position_unit.spelling;
    const double commanded = point.position.in(made.position_unit), moved = commanded + in_position_unit(made, point.correction);
    return fmt::format(
        "Correction = minus error, added to the commanded position, zero at the reference {}, linear between points; "
        "for example at {} the table says {}: the axis is sent to {:.10g} {}",
        amount(made.reference.in(made.position_unit), unit), amount(commanded, unit),
        amount(point.correction.in(made.unit), made.unit.spelling), moved, unit);
}

std::vector<std::string> compensation_cautions() {
    return {"Before loading, check sign, unit, reference point and direction against the control's own manual",
            "After loading, measure again: predicted values are not measured"};
}

double table_number(double value) {
    constexpr double grid = 1e9;
    return std::round(value * grid) / grid + 0.0;
}

std::string compensation_json_file(const CompensationEvaluation& made, const document::Document& document) {
    Json json{{"format", "wayfolio-compensation"}, {"version", format_version}};
    json["program"] = {{"name", "wayfolio"}, {"version", version()}};
    json["document"] = {{"sha256", document.sha256}};
    add(json["document"], "job", document.job.number);
    if (document.job.revision) json["document"]["revision"] = *document.job.revision;
    add(json, "data_notice", document.job.data_notice);
    if (document.job.status == document::Status::Draft) json["status"] = "draft";
    json["cautions"] = compensation_cautions();
    add(json, "convention", worked_line(made));
    json.update(compensation_json(made));
    return to_text(json);
}

std::string compensation_csv(const CompensationEvaluation& made, const document::Document& document) {
    std::string text;
    add_head(text, made, document);
    if (made.refused.empty()) add_rows(text, made);
    return text;
}

}  // namespace wayfolio::evaluate
