#include "gather/mapping/reading.hpp"

#include <array>

namespace wayfolio::gather {
namespace {

struct Question {
    std::string_view key, expected;
};

/// What must be filled in at a key, where the key itself says less.
constexpr std::array<Question, 15> questions{{
    {"id", "an id for the series, as x-exx"},
    {"error", "which error was measured, by ISO 230-1: EXX positioning of X, EYX straightness of X in Y, EBX rotation about Y"},
    {"sign", "actual-minus-target or target-minus-actual: which way the readings are signed"},
    {"unit", "the unit of the readings: um, mm, in, uin, urad, arcsec, deg, um/m"},
    {"position_unit", "the unit of the positions: mm, in, deg"},
    {"state", "the state of the machine, as as-found or as-left"},
    {"series", "the id of the series that these readings belong to"},
    {"approach", "positive or negative, or the column that says from which side the targets were approached"},
    {"positive", "the words that mean the positive approach, as an array"},
    {"negative", "the words that mean the negative approach, as an array"},
    {"run", R"(the column that numbers the runs, or "file", "block", "row" or "repeat")"},
    {"motion", R"(an array of the directions of the runs: ["positive", "negative"], or one of the two)"},
    {"decimal_mark", R"("." or ",": which mark stands before the decimals)"},
    {"form", "how the times are written, as DD.MM.YYYY hh:mm:ss"},
    {"offset", R"(the offset of the clock from UTC, as +02:00; "" if it is not known)"},
}};

std::string expected_at(std::string_view key) {
    for (const Question& question : questions)
        if (question.key == key) return std::string(question.expected);
    return "what belongs here";
}

bool note_under(const Value& value, std::string_view key, const Value& root, input::Faults& faults) {
    if (value.is(JsonKind::String) && value.text == open_place) {
        const bool of_environment = input::pointer_of(root, value).find("/environment/") != std::string::npos && key == "unit";
        faults.add(value, "an open place", of_environment ? "the unit of the column: C, F, hPa, kPa, Pa, percent, ppm" : expected_at(key),
                   "the export does not say it, and nothing is guessed");
        return true;
    }
    bool any = false;
    for (const Value& item : value.items) any = note_under(item, value.is(JsonKind::Object) ? item.key : key, root, faults) || any;
    return any;
}

}  // namespace

bool note_open_places(const Value& value, input::Faults& faults) { return note_under(value, {}, value, faults); }

}  // namespace wayfolio::gather
