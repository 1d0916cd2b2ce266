#include "gather/propose/propose.hpp"

#include "gather/draft/node.hpp"
#include "gather/propose/looked_at.hpp"
#include "gather/propose/roles.hpp"
#include "gather/shapes/head.hpp"
#include "input/encoding.hpp"
#include "units/position.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <set>

namespace wayfolio::gather {
namespace {

Node open_node() { return string_node("?"); }
Node flag_node(const char* text) { return string_node(text); }

/// What the heads say of the unit of positions, "" where they do not.
std::string unit_of_positions(const LookedAt& seen, const std::vector<Role>& roles) {
    for (std::size_t place = 0; place < roles.size() && !seen.heads.empty(); ++place)
        if (roles[place].becomes == Becomes::Position || roles[place].becomes == Becomes::TargetColumn) {
            const std::string unit = unit_in_head(seen.heads[place]).value_or("");
            return units::position_unit(unit) ? unit : "";
        }
    return {};
}

/// A series for a column of readings: what the head says of error and unit, all else open.
Node series_node(const std::string& id, const Role& role, const std::string& position_unit) {
    return object_node({named("id", string_node(id)), named("error", role.error.empty() ? open_node() : string_node(role.error)),
                        named("unit", role.unit.empty() ? open_node() : string_node(role.unit)),
                        named("position_unit", position_unit.empty() ? open_node() : string_node(position_unit)),
                        named("sign", open_node())});
}

Node column_node(const LookedAt& seen, std::size_t place) {
    return seen.heads.empty() ? number_node(std::to_string(place + 1)) : string_node(seen.heads[place]);
}

void put_dialect(Node& entry, const LookedAt& seen) {
    const Dialect& dialect = seen.dialect;
    if (seen.is_sheet) return;
    if (seen.encoding_needed) entry.set("encoding", flag_node(dialect.encoding == Encoding::Utf16 ? "utf-16" : "latin-1"));
    if (dialect.delimiter != ',')
        entry.set("delimiter", dialect.delimiter == '\t'              ? string_node("tab")
                               : dialect.delimiter == Dialect::blanks ? string_node("blanks")
                                                                      : string_node(std::string(1, dialect.delimiter)));
    if (!dialect.comment.empty()) entry.set("comment", string_node(dialect.comment));
    if (seen.decimal_open)
        entry.set("decimal_mark", open_node());
    else if (dialect.decimal_mark == ',')
        entry.set("decimal_mark", string_node(","));
    if (!dialect.thousands_mark.empty() && !seen.decimal_open) entry.set("thousands_mark", string_node(dialect.thousands_mark));
    if (seen.heads.empty()) entry.set("first_row", number_node(std::to_string(seen.first_row)));
}

/// Words for the approaches: those that say it themselves, else both open.
Node approach_node(const char* key, Node where, const std::set<std::string>& words) {
    std::vector<Node> positive, negative;
    bool open = false;
    for (const std::string& word : words) {
        const auto approach = approach_word(word);
        if (approach)
            (*approach == Approach::Positive ? positive : negative).push_back(string_node(word));
        else
            open = true;
    }
    if (open || positive.empty()) positive.push_back(open_node());
    if (open || negative.empty()) negative.push_back(open_node());
    return object_node({named(key, std::move(where)), named("positive", array_node(positive)), named("negative", array_node(negative))});
}

std::set<std::string> words_in(const LookedAt& seen, std::size_t place) {
    std::set<std::string> words;
    for (const Cells& row : seen.rows)
        if (place < row.size() && !row[place].empty()) words.insert(row[place]);
    return words;
}

class Writer {
public:
    explicit Writer(Node& series) : series_(series) {}

    Node entry_of(const LookedAt& seen, const std::string& pattern) {
        Node entry = object_node({named("file", string_node(pattern))});
        put_dialect(entry, seen);
        const std::vector<Role> roles = roles_of(seen);
        const auto place_of = [&](Becomes becomes) -> std::optional<std::size_t> {
            const auto found = std::ranges::find(roles, becomes, &Role::becomes);
            return found == roles.end() ? std::nullopt : std::optional(static_cast<std::size_t>(found - roles.begin()));
        };
        const bool readings = std::ranges::any_of(roles, [](const Role& role) { return is_reading(role.becomes); });
        const bool targets_in_heads = place_of(Becomes::TargetColumn).has_value(), runs_in_heads = place_of(Becomes::RunColumn).has_value();
        if (readings) {
            if (const auto place = place_of(Becomes::Position))
                entry.set("position", object_node({named("column", column_node(seen, *place))}));
            else if (!targets_in_heads)
                entry.set("position", open_node());
            if (const auto place = place_of(Becomes::Approach))
                entry.set("approach", approach_node("column", column_node(seen, *place), words_in(seen, *place)));
            else if (const auto told = told_above(seen, Becomes::Approach))
                entry.set("approach", approach_node("above", string_node(told->word), {told->value}));
            else if (there_and_back(roles).empty())
                entry.set("approach", open_node());
            if (const auto place = place_of(Becomes::Run))
                entry.set("run", object_node({named("column", column_node(seen, *place))}));
            else if (const auto told = told_above(seen, Becomes::Run); told && !runs_in_heads)
                entry.set("run", object_node({named("above", string_node(told->word))}));
            else if (!runs_in_heads)
                entry.set("run", open_node());
        }
        put_time(entry, seen, roles);
        if (const auto place = place_of(Becomes::Mark); place && readings)
            entry.set("excluded", object_node({named("column", column_node(seen, *place)), named("reasons", open_node())}));
        if (readings) entry.set("values", values_node(seen, roles));
        put_environment(entry, seen, roles);
        return entry;
    }

private:
    std::string new_id(const Role& role, const std::string& position_unit) {
        std::string id = role.error.empty() ? "series" : role.error;
        std::ranges::transform(id, id.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
        if (!role.error.empty()) id = std::string(1, static_cast<char>(role.error[2] - 'A' + 'a')) + "-" + id;
        std::string free = id;
        for (int number = 2; std::ranges::any_of(series_.items, [&](const Node& one) { return one.string("id") == free; }); ++number)
            free = fmt::format("{}-{}", id, number);
        series_.items.push_back(series_node(free, role, position_unit));
        return free;
    }

    Node values_node(const LookedAt& seen, const std::vector<Role>& roles) {
        std::vector<Node> values;
        std::set<std::string> patterns;
        const std::vector<std::string> both = there_and_back(roles);
        const std::string position_unit = unit_of_positions(seen, roles);
        std::string id_of_both;
        for (std::size_t place = 0; place < roles.size(); ++place) {
            const Role& role = roles[place];
            if (!is_reading(role.becomes) || (!role.pattern.empty() && !patterns.insert(role.pattern).second)) continue;
            const bool one_of_both = std::ranges::find(both, role.pattern) != both.end();
            std::string id = one_of_both && !id_of_both.empty() ? id_of_both : new_id(role, position_unit);
            if (one_of_both) id_of_both = id;
            Node node = object_node({named("series", string_node(id))});
            if (role.pattern.empty())
                node.set("column", column_node(seen, place));
            else
                node.set("columns", string_node(role.pattern));
            if (one_of_both) node.set("approach", open_node());
            if (role.becomes == Becomes::TargetColumn) node.set("are", string_node("targets"));
            if (role.becomes == Becomes::Actual) node.set("reads", string_node("position"));
            values.push_back(std::move(node));
        }
        return array_node(std::move(values));
    }

    static void put_time(Node& entry, const LookedAt& seen, const std::vector<Role>& roles) {
        std::vector<Node> columns;
        std::string form;
        for (std::size_t place = 0; place < roles.size(); ++place) {
            if (roles[place].becomes != Becomes::Time) continue;
            columns.push_back(column_node(seen, place));
            form += (form.empty() ? "" : " ") + roles[place].form;
        }
        if (columns.size() == 1) return set_time(entry, object_node({named("column", columns.front())}), form);
        if (!columns.empty()) return set_time(entry, object_node({named("columns", array_node(columns))}), form);
        if (const auto told = told_above(seen, Becomes::Time))
            set_time(entry, object_node({named("above", string_node(told->word))}), told->form);
    }

    static void set_time(Node& entry, Node where, const std::string& form) {
        if (form.find('?') != std::string::npos)
            where.set("form", open_node());
        else if (form != "ISO" && form != "ISO with offset")
            where.set("form", string_node(form));
        if (form != "ISO with offset") where.set("offset", open_node());
        entry.set("time", std::move(where));
    }

    static void put_environment(Node& entry, const LookedAt& seen, const std::vector<Role>& roles) {
        Node environment = object_node(), machine = object_node();
        for (std::size_t place = 0; place < roles.size(); ++place) {
            const Role& role = roles[place];
            if (role.becomes != Becomes::Environment) continue;
            Node node = object_node(
                {named("column", column_node(seen, place)), named("unit", role.unit.empty() ? open_node() : string_node(role.unit))});
            if (role.key == "machine_C")
                machine.set(seen.heads[place], std::move(node));
            else
                environment.set(role.key, std::move(node));
        }
        if (!machine.items.empty()) environment.set("machine_C", std::move(machine));
        if (!environment.items.empty()) entry.set("environment", std::move(environment));
    }

    Node& series_;
};

ExportSeen as_seen(const LookedAt& looked, const std::string& pattern) {
    constexpr std::size_t shown_rows = 3;
    ExportSeen seen{pattern, {}, looked.several_blocks};
    const std::vector<Role> roles = roles_of(looked);
    for (std::size_t place = 0; place < roles.size(); ++place) {
        ColumnSeen column{looked.heads.empty() ? "" : looked.heads[place], words_of(roles[place]), {}};
        for (std::size_t row = 0; row < std::min(shown_rows, looked.rows.size()); ++row)
            if (place < looked.rows[row].size()) column.first.push_back(looked.rows[row][place]);
        seen.columns.push_back(std::move(column));
    }
    return seen;
}

/// "x-*.csv" of names that differ in digits alone.
std::string pattern_of(const std::string& name) {
    std::string pattern;
    for (const char letter : name) {
        const bool digit = letter >= '0' && letter <= '9';
        if (!digit)
            pattern += letter;
        else if (!pattern.ends_with('*'))
            pattern += '*';
    }
    return pattern;
}

}  // namespace

Proposal propose(const std::vector<ExportFile>& exports) {
    Node series = array_node(), entries = array_node();
    std::vector<ExportSeen> seen_exports;
    std::vector<std::pair<std::string, LookedAt>> kinds;
    for (const ExportFile& file : exports) {
        LookedAt seen = look_at(file);
        const auto same = std::ranges::find_if(kinds, [&](const auto& kind) {
            return pattern_of(kind.second.name) == pattern_of(seen.name) && kind.second.heads == seen.heads;
        });
        if (same != kinds.end())
            same->first = pattern_of(seen.name);
        else
            kinds.emplace_back(file.name, std::move(seen));
    }
    Writer writer(series);
    for (const auto& [pattern, seen] : kinds) {
        entries.items.push_back(writer.entry_of(seen, pattern));
        seen_exports.push_back(as_seen(seen, pattern));
    }
    const Node mapping = object_node({named("format", string_node("wayfolio-mapping")), named("version", number_node("1")),
                                      named("series", std::move(series)), named("exports", std::move(entries))});
    return {written(mapping), std::move(seen_exports)};
}

std::string preview_text(const Proposal& proposal) {
    std::string text;
    for (const ExportSeen& seen : proposal.exports) {
        text += fmt::format("{}:\n", input::printable(seen.file));
        for (std::size_t place = 0; place < seen.columns.size(); ++place) {
            const ColumnSeen& column = seen.columns[place];
            const std::string head = column.head.empty() ? fmt::format("column {}", place + 1) : "\"" + column.head + "\"";
            text += fmt::format("  {:<28} {:<34} {}\n", input::printable(head), column.becomes,
                                input::printable(fmt::format("{}", fmt::join(column.first, " | "))));
        }
        if (seen.several_blocks) text += "  the head stands more than once: what names a block stands in {\"above\": ...}\n";
    }
    return text;
}

}  // namespace wayfolio::gather
