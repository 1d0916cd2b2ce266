#include "report/words/passages.hpp"

#include "report/words/names.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

using evaluate::CompensationEvaluation;
using evaluate::CompensationPoint;

constexpr int most_place_decimals = 3;

std::string number_as_needed(const Subject& subject, double value, int most) {
    return units::number(value, units::decimals_needed(value, most), style_of(subject));
}

/// A correction to the decimals of the table's increment, without its unit.
std::string correction_number(const Subject& subject, const CompensationEvaluation& made, const Deviation& value) {
    constexpr int most = 4;
    return units::number(value.in(made.unit), units::decimals_needed(made.increment, most), style_of(subject));
}

/// A place of the table as the axis is commanded, without its unit; at most three decimals.
std::string place_number(const Subject& subject, const CompensationEvaluation& made, const Position& place) {
    return number_as_needed(subject, place.in(made.position_unit), most_place_decimals);
}

std::string table_kind_words(document::TableKind kind) {
    switch (kind) {
        case document::TableKind::Bidirectional: return "one, from the mean bi-directional deviations";
        case document::TableKind::Positive: return "one, from the means of the positive approach";
        case document::TableKind::Negative: return "one, from the means of the negative approach";
        case document::TableKind::Both: return "two, one from the means of each approach";
    }
    return {};
}

std::string place_text(const Subject& subject, const CompensationEvaluation& made, const Position& place) {
    return with_unit(place_number(subject, made, place), made.position_unit.symbol);
}

std::string correction_text(const Subject& subject, const CompensationEvaluation& made, const Deviation& value) {
    return with_unit(correction_number(subject, made, value), made.unit.symbol);
}

const CompensationPoint& largest_point(const CompensationEvaluation& made) {
    const auto& points = made.tables.front().points;
    return *std::ranges::max_element(points, {}, [](const CompensationPoint& point) { return units::abs(point.correction); });
}

/// Where the axis is sent instead: 12 µm at 2 400 mm make 2 400.012 mm.
std::string moved_text(const Subject& subject, const CompensationEvaluation& made, const CompensationPoint& point) {
    const bool rotary = made.unit.dimension == units::Dimension::Angle;
    const double correction =
        rotary ? point.correction.in(units::degree) : point.correction.in(units::millimetre) / made.position_unit.in_natural;
    constexpr int most = 6;
    return with_unit(number_as_needed(subject, point.position.in(made.position_unit) + correction, most), made.position_unit.symbol);
}

}  // namespace

std::vector<Fact> table_facts(const Subject& subject, const CompensationEvaluation& made) {
    std::vector<Fact> facts;
    const auto spaced = [&](double value, std::string_view unit, int most) {
        return with_unit(number_as_needed(subject, value, most), unit);
    };
    if (const SeriesView* view = find_view(subject.views, made.series)) add_fact(facts, "From", series_name(view->series));
    add_fact(facts, "Tables", table_kind_words(made.kind));
    add_fact(facts, "Reference point", place_text(subject, made, made.reference) + ", where the table is zero");
    add_fact(facts, "Spacing", spaced(made.spacing, made.position_unit.symbol, most_place_decimals));
    constexpr int most_increment_decimals = 4;
    add_fact(facts, "Least increment",
             spaced(made.increment, made.unit.symbol, most_increment_decimals) + "; the correction is rounded to it, not its change");
    add_fact(facts, "Reversal",
             made.reversal ? correction_text(subject, made, *made.reversal) +
                                 ", added to the commanded position in the negative approach"
                           : "none: readings in one approach");
    return facts;
}

std::string correction_words(const Subject& subject, const CompensationEvaluation& made, const Deviation& low, const Deviation& high) {
    return correction_number(subject, made, low) + " to " + correction_text(subject, made, high);
}

std::vector<Text> convention(const Subject& subject, const CompensationEvaluation& made) {
    const CompensationPoint& point = largest_point(made);
    const auto& approach = made.tables.front().approach;
    const std::string direction = approach ? " of the " + std::string(word(*approach)) + " approach" : "";
    const std::string side = made.tables.size() > 1 ? " for the positive approach" : "";
    const std::string value = correction_text(subject, made, point.correction), at = place_text(subject, made, point.position);
    const Deviation error = -point.correction;
    const std::string plus = error.in(made.unit) > 0 ? "+" : "";
    std::string definition;
    for (const Fact& fact : table_facts(subject, made))
        definition += (definition.empty() ? "" : "; ") + uncapitalised(fact.name) + ": " + fact.lines.front().words();
    return {Text("Sign: correction = minus error, with error = actual minus commanded. The correction is added to the commanded position; "
                 "it is zero at the reference point, linear between points (drawn as steps) and held beyond the first and the last."),
            Text(capitalised(definition) + "."),
            Text("Worked line: at " + at + " the mean" + direction + " stands " + plus + correction_text(subject, made, error) +
                 " from its value at the reference, to the increment. The table" + side + " therefore says " + value +
                 ", and the axis is sent to " + moved_text(subject, made, point) + " instead of " + at + ".")};
}

std::vector<Text> table_cautions(const CompensationEvaluation& made) {
    std::vector<Text> cautions{Text().strong("Before loading, check sign, unit, reference point and direction against the control’s own "
                                             "manual; a table of the wrong sign doubles the error."),
                               Text("After loading, measure again: predicted values are not measured.")};
    for (const std::string& remark : made.remarks) cautions.emplace_back(page_words(remark));
    return cautions;
}

std::string page_words(std::string sentence) {
    const auto is_digit = [&](std::size_t at) { return at < sentence.size() && sentence[at] >= '0' && sentence[at] <= '9'; };
    for (std::size_t i = 1; i < sentence.size(); ++i)
        if (sentence[i] == '-' && sentence[i - 1] == ' ' && is_digit(i + 1)) sentence.replace(i, 1, units::minus_sign);
    return sentence;
}

PlainTable points_table(const Subject& subject, const CompensationEvaluation& made) {
    const std::string unit(made.unit.symbol);
    PlainTable table{.columns = {{"no.", 0, numbers}, {made.axis + " / " + std::string(made.position_unit.symbol), 0, numbers}}};
    for (const auto& one : made.tables) {
        const std::string side = !one.approach ? "" : *one.approach == Approach::Positive ? " pos." : " neg.";
        table.columns.push_back({unit + side, 0, numbers});
        table.columns.push_back({"step", 0, numbers});
    }
    const auto& first = made.tables.front().points;
    for (std::size_t i = 0; i < first.size(); ++i) {
        std::vector<Text> row{Text().quiet(std::to_string(i + 1)), Text(place_number(subject, made, first[i].position))};
        for (const auto& one : made.tables) {
            const Deviation& change = one.points[i].change;
            row.push_back(Text().strong(correction_number(subject, made, one.points[i].correction)));
            row.push_back(i == 0 ? Text(no_value)
                                 : Text((change.in(made.unit) > 0 ? "+" : "") + correction_number(subject, made, change)));
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

}  // namespace wayfolio::report
