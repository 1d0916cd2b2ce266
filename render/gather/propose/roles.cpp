#include "gather/propose/roles.hpp"

#include "document/error_symbol.hpp"
#include "gather/shapes/head.hpp"
#include "input/iso_date.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

namespace wayfolio::gather {
namespace {

struct Word {
    std::string_view word;
    Becomes becomes;
};
/// Generic words of the trade, as they stand in heads. The first that a head holds counts.
constexpr std::array<Word, 22> words{
    {{"actual", Becomes::Actual},      {"measured", Becomes::Actual},   {"deviation", Becomes::Deviation}, {"error", Becomes::Deviation},
     {"target", Becomes::Position},    {"nominal", Becomes::Position},  {"station", Becomes::Position},    {"position", Becomes::Position},
     {"direction", Becomes::Approach}, {"approach", Becomes::Approach}, {"dir", Becomes::Approach},        {"run", Becomes::Run},
     {"cycle", Becomes::Run},          {"time", Becomes::Time},         {"date", Becomes::Time},           {"day", Becomes::Time},
     {"clock", Becomes::Time},         {"mark", Becomes::Mark},         {"flag", Becomes::Mark},           {"excluded", Becomes::Mark},
     {"remark", Becomes::Mark},        {"note", Becomes::Nothing}}};

/// Words for the two ways along an axis, as they stand in heads. Which way is positive is nobody's to guess.
constexpr std::array<std::pair<std::string_view, std::string_view>, 6> ways{
    {{"up", "down"}, {"forward", "backward"}, {"forward", "back"}, {"there", "back"}, {"out", "back"}, {"fwd", "bwd"}}};

struct SurroundingsWord {
    std::string_view word, key, called;
};
constexpr std::array<SurroundingsWord, 6> surroundings_words{{{"air", "air_C", "air temperature"},
                                                              {"pressure", "pressure_hPa", "air pressure"},
                                                              {"humidity", "humidity_percent", "humidity of the air"},
                                                              {"co2", "co2_ppm", "carbon dioxide"},
                                                              {"machine", "machine_C", "temperature of the machine"},
                                                              {"material", "machine_C", "temperature of the machine"}}};

std::string lower(std::string_view text) {
    std::string small(text);
    std::ranges::transform(small, small.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    return small;
}

bool is_letter(char letter) { return (letter >= 'a' && letter <= 'z') || static_cast<unsigned char>(letter) >= 0x80; }

/// Whether a head holds a word as a word: "dir" is not in "diameter".
bool holds(const std::string& head, std::string_view word) {
    for (std::size_t at = head.find(word); at != std::string::npos; at = head.find(word, at + 1)) {
        const bool begins = at == 0 || !is_letter(head[at - 1]);
        const bool ends = at + word.size() >= head.size() || !is_letter(head[at + word.size()]);
        if (begins && ends) return true;
    }
    return false;
}

bool all_numbers(const LookedAt& seen, std::size_t place) {
    bool any = false;
    for (const Cells& row : seen.rows) {
        if (place >= row.size() || row[place].empty()) continue;
        if (!looks_like_number(row[place])) return false;
        any = true;
    }
    return any;
}

/// The form of times that are written as `value`. "05/06/2026" may be either of two days: that is open.
std::string form_of(const std::string& value) {
    std::string iso = value;
    if (iso.size() > 10 && iso[10] == ' ') iso[10] = 'T';
    if (const auto date = input::iso_date(iso)) return date->offset_minutes ? "ISO with offset" : "ISO";
    std::string form;
    std::vector<std::string> groups;
    for (std::size_t at = 0; at < value.size();) {
        const std::size_t end = std::min(value.find_first_not_of("0123456789", at), value.size());
        if (end == at) {
            form += value[at++];
            continue;
        }
        form += "#";
        groups.push_back(value.substr(at, end - at));
        at = end;
    }
    if (form == "#:#") return "hh:mm";
    if (form == "#:#:#" || form == "#:#:#.#") return "hh:mm:ss";
    const std::string clock = form.ends_with(" #:#:#") ? " hh:mm:ss" : form.ends_with(" #:#") ? " hh:mm" : "";
    const std::string day = form.substr(0, 5);
    if (day == "#.#.#" && groups[2].size() == 4) return "DD.MM.YYYY" + clock;
    if ((day == "#/#/#" || day == "#-#-#") && groups[0].size() == 4) return std::string("YYYY") + day[1] + "MM" + day[1] + "DD" + clock;
    return "?";
}

bool looks_like_time(const std::string& value) {
    return value.find_first_of(":.-/") != std::string::npos && value.find_first_of("0123456789") != std::string::npos;
}

/// "Run 1" and "Run 2" are columns of one kind: "Run #"; so are heads that are positions.
std::map<std::string, std::size_t> kinds_of_heads(const LookedAt& seen) {
    std::map<std::string, std::size_t> kinds;
    for (const std::string& head : seen.heads)
        if (const std::size_t digit = head.find_first_of("0123456789"); digit != std::string::npos) {
            const std::size_t end = std::min(head.find_first_not_of("0123456789.,", digit), head.size());
            const std::size_t start = digit > 0 && (head[digit - 1] == '-' || head[digit - 1] == '+') && digit == 1 ? digit - 1 : digit;
            ++kinds[head.substr(0, start) + "#" + head.substr(end)];
        }
    return kinds;
}

std::string kind_of_head(const LookedAt& seen, const std::string& head, const std::map<std::string, std::size_t>& kinds) {
    for (const auto& [pattern, count] : kinds)
        if (count > 1 && number_in_head(pattern, head, seen.dialect)) return pattern;
    return {};
}

Role role_by_words(const LookedAt& seen, std::size_t place) {
    Role role;
    const std::string& head = seen.heads[place];
    const std::string small = lower(head);
    role.unit = unit_in_head(head).value_or("");
    role.error = symbol_in(head);
    if (!role.error.empty()) role.becomes = Becomes::Deviation;
    for (const Word& word : words)
        if (role.becomes == Becomes::Nothing && role.error.empty() && holds(small, word.word)) {
            role.becomes = word.becomes;
            if (word.becomes == Becomes::Nothing) return role;
        }
    const bool temperature = role.unit == "C" || role.unit == "F";
    for (const SurroundingsWord& word : surroundings_words)
        if (role.becomes == Becomes::Nothing && holds(small, word.word)) role.becomes = Becomes::Environment, role.key = word.key;
    if (role.becomes == Becomes::Nothing && (temperature || role.unit == "hPa" || role.unit == "kPa")) {
        role.becomes = Becomes::Environment;
        role.key = temperature ? "machine_C" : "pressure_hPa";
    }
    if (role.becomes == Becomes::Nothing && all_numbers(seen, place)) role.becomes = Becomes::Deviation;
    if (role.becomes == Becomes::Time) role.form = form_of_column(seen, place);
    return role;
}

/// In a log (times, surroundings, and nothing of an axis) a column of numbers that no word explains is a sensor: its unit stays open.
void take_sensors(std::vector<Role>& roles) {
    const auto has = [&](Becomes what) { return std::ranges::find(roles, what, &Role::becomes) != roles.end(); };
    const bool axis = has(Becomes::Position) || has(Becomes::Actual) || has(Becomes::Approach) || has(Becomes::Run) ||
                      has(Becomes::RunColumn) || has(Becomes::TargetColumn);
    if (axis || !has(Becomes::Time) || !has(Becomes::Environment)) return;
    for (Role& role : roles)
        if (role.becomes == Becomes::Deviation && role.error.empty()) role = {.becomes = Becomes::Environment, .key = "machine_C"};
}

}  // namespace

std::string symbol_in(std::string_view head) {
    for (std::size_t at = 0; at + 3 <= head.size(); ++at)
        if (document::error_symbol(head.substr(at, 3))) return std::string(head.substr(at, 3));
    return {};
}

std::string form_of_column(const LookedAt& seen, std::size_t place) {
    for (const Cells& row : seen.rows)
        if (place < row.size() && !row[place].empty()) return form_of(row[place]);
    return "?";
}

std::optional<Told> told_above(const LookedAt& seen, Becomes what) {
    for (const Cells& row : seen.above) {
        if (row.size() < 2 || row[0].empty() || row[1].empty()) continue;
        const std::string small = lower(row[0]);
        const bool begun = what == Becomes::Time && (holds(small, "started") || holds(small, "begun"));
        const bool says = std::ranges::any_of(words, [&](const Word& word) { return word.becomes == what && holds(small, word.word); });
        const std::string form = what == Becomes::Time ? form_of(row[1]) : "";
        const bool is_time = what != Becomes::Time || looks_like_time(row[1]);
        if ((begun || says) && is_time) return Told{row[0], row[1], form};
    }
    return std::nullopt;
}

std::string error_above(const LookedAt& seen) {
    std::string only;
    for (const Cells& row : seen.above)
        for (const std::string& cell : row) {
            const std::string symbol = cell.size() == 3 ? symbol_in(cell) : "";
            if (symbol.empty() || symbol == only) continue;
            if (!only.empty()) return {};
            only = symbol;
        }
    return only;
}

std::optional<Approach> approach_word(std::string_view word) {
    const std::string small = lower(word);
    if (small == "+" || small == "positive") return Approach::Positive;
    if (small == "-" || small == "\u2212" || small == "negative") return Approach::Negative;
    return std::nullopt;
}

std::vector<std::string> there_and_back(const std::vector<Role>& roles) {
    std::vector<std::string> patterns;
    for (const Role& role : roles)
        if (role.becomes == Becomes::RunColumn && !role.pattern.empty() && std::ranges::find(patterns, role.pattern) == patterns.end())
            patterns.push_back(role.pattern);
    if (patterns.size() != 2) return {};
    for (const auto& [there, back] : ways) {
        std::string first = lower(patterns[0]), second = lower(patterns[1]);
        if (holds(first, back)) std::swap(first, second);
        if (!holds(first, there) || !holds(second, back)) continue;
        first.replace(first.find(there), there.size(), back);
        if (first == second) return patterns;
    }
    return {};
}

bool is_reading(Becomes becomes) {
    return becomes == Becomes::Deviation || becomes == Becomes::Actual || becomes == Becomes::RunColumn || becomes == Becomes::TargetColumn;
}

std::vector<Role> roles_of(const LookedAt& seen, const std::vector<GivenRole>& given) {
    std::vector<Role> roles;
    const auto kinds = kinds_of_heads(seen);
    const std::size_t width = seen.heads.empty() ? seen.rows.front().size() : seen.heads.size();
    for (std::size_t place = 0; place < width; ++place) {
        if (seen.heads.empty()) {
            roles.push_back(
                {.becomes = all_numbers(seen, place) ? (place == 0 ? Becomes::Position : Becomes::Deviation) : Becomes::Nothing});
            continue;
        }
        const std::string kind = kind_of_head(seen, seen.heads[place], kinds);
        if (kind.empty()) {
            roles.push_back(role_by_words(seen, place));
            continue;
        }
        const bool position = kind.starts_with('#') && !seen.by_number;
        std::string unit = unit_in_head(seen.heads[place]).value_or("");
        roles.push_back({.becomes = position ? Becomes::TargetColumn : Becomes::RunColumn,
                         .error = symbol_in(kind),
                         .unit = position ? "" : unit,
                         .pattern = kind});
    }
    take_sensors(roles);
    give_roles(roles, seen, given);
    const auto readings = std::ranges::count_if(roles, [](const Role& role) { return is_reading(role.becomes); });
    if (const std::string error = error_above(seen); readings == 1 || (readings > 1 && kinds.size() == 1))
        for (Role& role : roles)
            if (is_reading(role.becomes) && role.error.empty()) role.error = error;
    return roles;
}

std::string words_of(const Role& role) {
    const std::string of = role.error.empty() ? "error open" : "of " + role.error, in = role.unit.empty() ? "unit open" : "in " + role.unit;
    switch (role.becomes) {
        case Becomes::Nothing:
            return role.taken ? "is not read: another column is taken for that" : "is not read";
        case Becomes::Position:
            return "target position";
        case Becomes::Approach:
            return "approach";
        case Becomes::Run:
            return "run";
        case Becomes::Time:
            return "time";
        case Becomes::Mark:
            return "mark of readings set aside";
        case Becomes::Deviation:
            return "readings, " + of + ", " + in;
        case Becomes::Actual:
            return "actual positions, " + of;
        case Becomes::RunColumn:
            if (role.approach)
                return fmt::format("a run, {} approach, {}, {}", *role.approach == Approach::Positive ? "positive" : "negative", of, in);
            return "a run, " + of + ", " + in;
        case Becomes::TargetColumn:
            return "a target, " + of + ", " + in;
        case Becomes::Environment:
            return fmt::format("{}, {}", std::ranges::find(surroundings_words, role.key, &SurroundingsWord::key)->called, in);
    }
    return {};
}

}  // namespace wayfolio::gather
