#include "report/blocks/blocks.hpp"

#include "report/words/judgements.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::report {
namespace {

using evaluate::SquarenessEvaluation;
using document::ReferenceLine;

std::string line_words(ReferenceLine line) {
    switch (line) {
        case ReferenceLine::EndPoint: return "end-point";
        case ReferenceLine::LeastSquares: return "least squares";
        case ReferenceLine::MinimumZone: return "minimum zone";
    }
    return {};
}

/// One squareness with everything that the page says about it.
struct JudgedSquareness {
    const Subject& subject;
    const SquarenessEvaluation& squareness;
    Shown shown;
    const evaluate::Decision* decision;  ///< nullptr: no limit
    std::optional<Deviation> U;

    [[nodiscard]] std::string unit() const { return std::string(shown.unit.symbol); }
    [[nodiscard]] int decimals() const {
        if (decision && decision->value) return decided_decimals(*decision, shown);
        const auto* value = evaluate::value_of(squareness.value);
        return result_decimals(shown, value ? std::optional(Deviation(*value)) : std::nullopt, U);
    }
    [[nodiscard]] std::string with_sign(const units::Angle& angle) const {
        const std::string number = number_of(shown, Deviation(angle), decimals());
        return (angle > units::Angle() ? "+" : "") + number;
    }
    [[nodiscard]] std::string quadrant() const { return "+" + squareness.axes[0] + "\u00a0and\u00a0+" + squareness.axes[1]; }
};

JudgedSquareness judged_squareness(const Subject& subject, const SquarenessEvaluation& squareness) {
    return {.subject = subject,
            .squareness = squareness,
            .shown = squareness_shown(subject),
            .decision = find_decision(subject.evaluation, squareness),
            .U = expanded_of(subject, squareness)};
}

/// "14.8 µrad more than 90°": how the angle between the positive directions differs from a right angle.
std::string angle_words(const JudgedSquareness& j) {
    const units::Angle beyond = *j.squareness.beyond_right_angle;
    if (beyond == units::Angle()) return "90°";
    return with_unit(number_of(j.shown, Deviation(units::abs(beyond)), j.decimals()), j.unit()) +
           (beyond > units::Angle() ? " more than 90°" : " less than 90°");
}

Text squareness_lead(const JudgedSquareness& j) {
    if (const auto* reason = std::get_if<evaluate::NotEvaluated>(&j.squareness.value))
        return Text(squareness_name(j.squareness.axes) + " is not evaluated: " + reason->reason + ".");
    if (j.decision) return verdict_sentence(Text(squareness_name(j.squareness.axes)), *j.decision, j.shown);
    return Text("The angle between " + j.quadrant() + " is " + angle_words(j) + "; no limit is set.");
}

/// "14.8 µm" and "1 m": what an angle makes over a distance, in the document's own system of units.
std::pair<std::string, std::string> slope_words(const JudgedSquareness& j, const units::Angle& angle) {
    const double parts_per_million = angle.in(units::micrometre_per_metre);
    const int decimals = j.U ? units::decimals_of_result(j.U->in(units::micrometre_per_metre), {})
                             : units::decimals_of_step(std::pow(10.0, -j.decimals()) * j.shown.unit.in_base);
    const std::string number = units::number(parts_per_million, units::decimals_that_show(parts_per_million, decimals), j.shown.style);
    if (j.subject.units.linear == units::position_inch) return {with_unit(number, units::microinch.symbol), with_unit("1", "in")};
    return {with_unit(number, units::micrometre.symbol), with_unit("1", "m")};
}

/// "11.9 ± 2.2 µm over the 600 mm of Y": what the angle makes where it was measured.
std::string over_travel(const JudgedSquareness& j, std::size_t of) {
    const SeriesView* view = find_view(j.subject.views, j.squareness.series[of]);
    if (!view || view->evaluation.targets.size() < 2) return "";
    const auto place = [](const evaluate::TargetEvaluation& target) { return target.position.in(units::position_millimetre); };
    const auto [low, high] = std::ranges::minmax(view->evaluation.targets, {}, place);
    const double mm = place(high) - place(low), um_per_um_per_m = mm / 1000;
    const double um = units::abs(*evaluate::value_of(j.squareness.value)).in(units::micrometre_per_metre) * um_per_um_per_m;
    const double U = j.U ? j.U->in(units::micrometre_per_metre) * um_per_um_per_m : 0;
    const int decimals = units::decimals_that_show(um, j.U ? units::decimals_of_result(U, {}) : 1);
    const std::string size = j.U ? length_number(j.subject, um, decimals) + "\u00a0±\u202f" + length_words(j.subject, U, decimals)
                                 : length_words(j.subject, um, decimals);
    return size + " over the " + distance_text(j.subject, mm) + " of " + j.squareness.axes[of];
}

Text squareness_body(const JudgedSquareness& j) {
    const units::Angle value = *evaluate::value_of(j.squareness.value);
    const auto [length, along] = slope_words(j, units::abs(value));
    Text body("The angle between " + j.quadrant() + " is " + angle_words(j) + ", which makes " + length + " in " + along);
    std::vector<std::string> travels;
    for (const std::size_t of : {0U, 1U})
        if (const std::string words = over_travel(j, of); !words.empty()) travels.push_back(words);
    body.plain(travels.empty() ? ". " : ": " + listed(travels) + ". ");
    body.plain("It is taken between the " + line_words(j.squareness.reference_line) +
               " lines of both axes, against one square. Other reference lines are below.");
    if (!j.squareness.square_error) body.plain(" The document states no error of the square: 0 was used.");
    return body;
}

/// Series and their slopes under each kind of line; the headline's row is strong.
PlainTable lines_table(const JudgedSquareness& j) {
    // Slopes stand in the unit of the squareness, which is their sum.
    const std::string unit = j.shown.unit == DeviationUnit(units::microradian) ? std::string(units::micrometre_per_metre.symbol) : j.unit();
    std::array<std::string, 2> symbols;
    for (std::size_t i = 0; i < 2; ++i) symbols[i] = "E" + j.squareness.axes[1 - i] + j.squareness.axes[i];
    PlainTable table{.columns = {{"Reference line of both axes", 0.34},
                                 {"slope of " + symbols[0] + " / " + unit, 0.22, numbers},
                                 {"slope of " + symbols[1] + " / " + unit, 0.22, numbers},
                                 {j.squareness.symbol + " / " + j.unit(), 0.22, numbers}}};
    const auto number = [&](const units::Angle& value) { return number_of(j.shown, Deviation(value), j.decimals()); };
    for (const auto& line : j.squareness.lines) {
        std::vector<std::string> cells{capitalised(line_words(line.line)), number(line.slope_first), number(line.slope_second),
                                       number(line.value)};
        std::vector<Text> row;
        for (const std::string& cell : cells) row.push_back(line.line == j.squareness.reference_line ? Text().strong(cell) : Text(cell));
        table.rows.push_back(std::move(row));
    }
    return table;
}

std::string square_text(const JudgedSquareness& j, const document::SquarenessRequest& request) {
    if (!request.square_error_urad) return "no error stated, 0 used";
    const auto text = [&](double urad) { return with_unit(number_of(j.shown, units::microradian(urad), j.decimals()), j.unit()); };
    std::string words = "error " + text(*request.square_error_urad) + (*request.square_error_urad > 0 ? " (more than 90°)" : "");
    if (request.square_expanded_urad) {
        words += ", U\u00a0=\u00a0" + text(*request.square_expanded_urad);
        if (request.square_coverage_factor) words += ", k\u00a0=\u00a0" + units::number(*request.square_coverage_factor, 0, j.shown.style);
    } else {
        words += ", no uncertainty stated";
    }
    return words + (request.square_serial.empty() ? "" : ", serial " + request.square_serial);
}

FactTable squareness_facts(const JudgedSquareness& j) {
    std::vector<Fact> facts;
    add_fact(facts, "Sign",
             "positive " + j.squareness.symbol + " turns +" + j.squareness.axes[1] + " by the right hand about the third axis" +
                 (j.squareness.symbol == "EB0Z" ? ", which closes the angle between " : ", which opens the angle between ") + j.quadrant());
    const std::string slopes =
        "slope of E" + j.squareness.axes[1] + j.squareness.axes[0] + " + slope of E" + j.squareness.axes[0] + j.squareness.axes[1];
    add_fact(facts, "Formula",
             j.squareness.symbol + (j.squareness.symbol == "EB0Z" ? "\u00a0= " + slopes + " \u2212 error of the square"
                                                                  : "\u00a0= \u2212(" + slopes + ") + error of the square"));
    const auto& requests = j.subject.document.squareness;
    const auto request = std::ranges::find_if(
        requests, [&](const auto& asked) { return asked.axes == j.squareness.axes && asked.series == j.squareness.series; });
    if (request != requests.end()) {
        add_fact(facts, "Reference square", square_text(j, *request));
        if (request->tolerance) add_fact(facts, "Source of the limit", request->tolerance->source);
    }
    std::vector<std::string> from;
    for (const std::string& id : j.squareness.series)
        if (const auto* series = document::find_series(j.subject.document, id)) from.push_back(series_name(*series));
    add_fact(facts, "From", listed(from));
    return {facts};
}

SquarenessDrawing drawing_of(const JudgedSquareness& j) {
    using Lean = SquarenessDrawing::Lean;
    const units::Angle value = *evaluate::value_of(j.squareness.value), beyond = *j.squareness.beyond_right_angle;
    auto axes = j.squareness.axes;
    std::ranges::sort(axes);
    SquarenessDrawing drawing{.id = "squareness-" + j.squareness.series[0], .first = axes[0], .second = axes[1],
                              .lean = beyond == units::Angle() ? Lean::None : beyond > units::Angle() ? Lean::Open : Lean::Closed,
                              .value = Text(), .angle = Text()};
    const std::string size = with_unit(number_of(j.shown, Deviation(units::abs(beyond)), j.decimals()), j.unit());
    const std::string both = j.with_sign(value) + (j.U ? "\u00a0±\u202f" + number_of(j.shown, *j.U, j.decimals()) : std::string());
    const bool in_parentheses = j.U && has_factor(j.shown);
    drawing.value.symbol(j.squareness.symbol)
        .plain("\u00a0=\u00a0" + with_unit(in_parentheses ? "(" + both + ")" : both, j.unit()));
    drawing.angle = Text(
        "90°" + (beyond == units::Angle() ? "" : std::string(beyond > units::Angle() ? "\u00a0+\u00a0" : "\u00a0\u2212\u00a0") + size));
    drawing.alternative = "Drawing, lean not to scale: +" + axes[0] + " to the right, +" + axes[1] + " upwards and leaning " +
                          (drawing.lean == Lean::Open     ? "away from +" + axes[0]
                           : drawing.lean == Lean::Closed ? "towards +" + axes[0]
                                                          : "to neither side") +
                          ". The angle between them is " + angle_words(j) + "; " + drawing.value.words() + ".";
    return drawing;
}

std::vector<Text> squareness_margin(const JudgedSquareness& j) {
    std::vector<Text> lines{Text(result_text(j.shown, Deviation(*evaluate::value_of(j.squareness.value)), j.U, j.decimals()))};
    if (!j.U) lines.emplace_back("no uncertainty stated");
    if (j.decision) lines.emplace_back("limit " + with_unit(limit_number(j.shown, j.decision->limit), j.unit()) + " on its size");
    lines.emplace_back(line_words(j.squareness.reference_line) + " lines");
    return lines;
}

SquarenessOpening opening_of(const JudgedSquareness& j) {
    SquarenessOpening made;
    made.verdict = verdict_of(j.decision, j.shown);
    const auto* first = document::find_series(j.subject.document, j.squareness.series[0]);
    made.opening = {.label = squareness_name(j.squareness.axes) + (first ? state_suffix(first->state) : ""),
                    .anchor = squareness_anchor(j.subject, j.squareness),
                    .lead = squareness_lead(j)};
    if (!evaluate::value_of(j.squareness.value)) return made;
    made.opening.body = squareness_body(j);
    made.drawing = drawing_of(j);
    made.drawing->alternative += " Verdict: " + made.verdict.word.words() + ".";
    const std::string third = made.drawing->first == "X" ? (made.drawing->second == "Y" ? "Z" : "Y") : "X";
    made.caption = Text("+" + made.drawing->first + " to the right, +" + made.drawing->second + " up; +" + third +
                        (third == "Y" ? " points away from the reader" : " points at the reader") +
                        ". Angle exaggerated; only its direction is true.");
    made.margin_heading = j.squareness.symbol;
    made.margin = squareness_margin(j);
    made.sections = {{.heading = "By reference line", .parts = {lines_table(j)}},
                     {.heading = "Definition", .parts = {squareness_facts(j)}}};
    return made;
}

}  // namespace

std::vector<SquarenessOpening> squareness_openings(const Subject& subject) {
    std::vector<SquarenessOpening> all;
    for (const SquarenessEvaluation& squareness : subject.evaluation.squareness)
        all.push_back(opening_of(judged_squareness(subject, squareness)));
    return all;
}

}  // namespace wayfolio::report
