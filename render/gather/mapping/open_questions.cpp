#include "gather/mapping/open_questions.hpp"

#include "document/error_symbol.hpp"
#include "gather/mapping/reading.hpp"
#include "input/json/json.hpp"
#include "units/deviation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>

namespace wayfolio::gather {
namespace {

Choice choice(std::string_view key, std::string_view value, std::string says) {
    return {std::move(says), fmt::format("{{{}: {}}}", input::quoted(key), input::quoted(value))};
}

std::string words_of(const document::ErrorSymbol& symbol) {
    const bool turns = symbol.axis_is_rotary();
    switch (symbol.kind()) {
        case document::ErrorKind::Positioning:
            return "positioning of " + symbol.axis;
        case document::ErrorKind::Straightness:
            return turns ? fmt::format("displacement along {} while {} turns", symbol.direction, symbol.axis)
                         : fmt::format("straightness of {} in {}", symbol.axis, symbol.direction);
        case document::ErrorKind::Angle:
            break;
    }
    // Pitch and yaw depend on which axis is vertical, which no export says.
    if (document::angle_name(symbol, "") == document::AngleName::Roll) return "roll of " + symbol.axis;
    const char about = static_cast<char>('X' + (symbol.direction - 'A'));
    return fmt::format("rotation about {} while {} {}", about, symbol.axis, turns ? "turns" : "moves");
}

std::vector<Choice> errors() {
    std::vector<Choice> all;
    for (const char axis : std::string_view("XYZUVWABC"))
        for (const char direction : std::string_view("XYZABC"))
            if (const auto symbol = document::error_symbol(std::string{'E', direction, axis}))
                all.push_back(choice("error", symbol->text(), symbol->text() + ": " + words_of(*symbol)));
    return all;
}

std::vector<Choice> units_of_readings() {
    std::vector<Choice> all;
    for (const units::DeviationUnit& unit : units::deviation_units) all.push_back(choice("unit", unit.spelling, std::string(unit.symbol)));
    return all;
}

std::vector<Choice> units_of_surroundings(std::string_view where) {
    if (where.find("pressure") != std::string_view::npos)
        return {choice("unit", "hPa", "hPa (mbar)"), choice("unit", "kPa", "kPa"), choice("unit", "Pa", "Pa")};
    if (where.find("humidity") != std::string_view::npos) return {choice("unit", "percent", "% relative humidity")};
    if (where.find("co2") != std::string_view::npos) return {choice("unit", "ppm", "ppm")};
    return {choice("unit", "C", "\u00b0C"), choice("unit", "F", "\u00b0F")};
}

std::vector<Choice> offsets() {
    constexpr int quarter = 15, east = 14 * 60, west = -12 * 60;
    constexpr std::array odd{-570, -210, 210, 270, 330, 345, 390, 525, 570, 630, 765};  // those in use that are not whole hours
    std::vector<Choice> all{choice("offset", "", "it is not known")};
    for (int minutes = west; minutes <= east; minutes += quarter)
        if (minutes % 60 == 0 || std::ranges::find(odd, minutes) != odd.end()) {
            const std::string offset =
                fmt::format("{}{:02}:{:02}", minutes < 0 ? '-' : '+', std::abs(minutes) / 60, std::abs(minutes) % 60);
            all.push_back(choice("offset", offset, "UTC" + offset));
        }
    return all;
}

/// A sequence in time order may say by its positions where a run ends and from which side it comes.
std::vector<Choice> approaches(bool of_export) {
    std::vector<Choice> all{choice("approach", "positive", "positive in every row"),
                            choice("approach", "negative", "negative in every row")};
    if (of_export) {
        all.push_back({"the rows go there and back; the first run is positive",
                       R"({"motion": ["positive", "negative"], "approach": null, "run": null})"});
        all.push_back({"the rows go there and back; the first run is negative",
                       R"({"motion": ["negative", "positive"], "approach": null, "run": null})"});
    }
    return all;
}

OpenQuestion question(std::string at, const std::string& key, bool of_export) {
    const auto chosen = [&](std::string asks, std::vector<Choice> choices) {
        return OpenQuestion{at, key, std::move(asks), AnsweredBy::Choice, std::move(choices)};
    };
    const auto told = [&](std::string asks, AnsweredBy by = AnsweredBy::Text) { return OpenQuestion{at, key, std::move(asks), by, {}}; };
    if (key == "error") return chosen("Which error was measured?", errors());
    if (key == "unit" && at.find("/environment/") != std::string::npos) return chosen("In which unit?", units_of_surroundings(at));
    if (key == "unit") return chosen("In which unit are the readings?", units_of_readings());
    if (key == "position_unit")
        return chosen("In which unit are the positions?",
                      {choice(key, "mm", "mm"), choice(key, "in", "inches"), choice(key, "deg", "degrees")});
    if (key == "sign")
        return chosen("What does a positive reading mean?",
                      {choice(key, "actual-minus-target", "past the target, or turned in the positive sense (actual minus target)"),
                       choice(key, "target-minus-actual", "short of the target, or turned in the negative sense: it will be turned over")});
    if (key == "approach") return chosen("From which side were the targets approached?", approaches(of_export));
    if (key == "run")
        return chosen("What makes a run?",
                      {choice(key, "file", "each file is one run"), choice(key, "block", "each block under a head"),
                       choice(key, "row", "each row"), choice(key, "repeat", "a target that is read again begins a new run")});
    if (key == "decimal_mark")
        return chosen("Which mark stands before the decimals?", {choice(key, ".", "a point"), choice(key, ",", "a comma")});
    if (key == "offset") return chosen("Which offset from UTC did its clock show?", offsets());
    if (key == "position") return told("Which column has the target positions?", AnsweredBy::Column);
    if (key == "time") return told("Which column has the times?", AnsweredBy::Column);
    if (key == "form") return told("How are its times written, as DD/MM/YYYY hh:mm:ss?");
    if (key == "positive") return told("Which words mean the positive approach?", AnsweredBy::Words);
    if (key == "negative") return told("Which words mean the negative approach?", AnsweredBy::Words);
    if (key == "reasons") {
        OpenQuestion asked = told("What does each of its marks mean?", AnsweredBy::Pairs);
        asked.choices.push_back({"each cell says it in words", R"({"reasons": null})"});
        return asked;
    }
    return told(fmt::format("What belongs at {}?", key));
}

bool is_open(const Value& value) { return value.is(JsonKind::String) && value.text == open_place; }

void collect(const Value& value, const Value& root, std::vector<OpenQuestion>& questions) {
    for (const Value& item : value.items) {
        const bool word = item.is(JsonKind::Array) && item.items.size() == 1 && is_open(item.items.front());
        if (!word && !is_open(item)) {
            collect(item, root, questions);
            continue;
        }
        const std::string at = input::pointer_of(root, value);
        const bool of_export = at.starts_with("/exports/") && std::ranges::count(at, '/') == 2;
        questions.push_back(question(at, std::string(item.key), of_export));
    }
}

}  // namespace

std::vector<OpenQuestion> open_questions(std::string_view mapping) {
    const std::string bytes(mapping);
    const input::Json json = input::read_json(bytes, "mapping.json");
    std::vector<OpenQuestion> questions;
    collect(json.root, json.root, questions);
    return questions;
}

}  // namespace wayfolio::gather
