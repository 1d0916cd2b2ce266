#include "gather/propose/write_export.hpp"

#include "gather/shapes/head.hpp"
#include "units/position.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

namespace wayfolio::gather {
namespace {

Node open_node() { return string_node("?"); }

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
    return seen.by_number || seen.heads[place].empty() ? number_node(std::to_string(place + 1)) : string_node(seen.heads[place]);
}

void put_dialect(Node& entry, const LookedAt& seen) {
    const Dialect& dialect = seen.dialect;
    if (seen.by_number) entry.set("first_row", number_node(std::to_string(seen.first_row)));
    if (seen.is_sheet) return;
    if (seen.encoding_needed) entry.set("encoding", string_node(word_for(encoding_words, dialect.encoding)));
    if (dialect.delimiter != ',') entry.set("delimiter", string_node(word_for(delimiter_words, dialect.delimiter)));
    if (!dialect.comment.empty()) entry.set("comment", string_node(dialect.comment));
    if (seen.decimal_open)
        entry.set("decimal_mark", open_node());
    else if (dialect.decimal_mark == ',')
        entry.set("decimal_mark", string_node(","));
    if (!dialect.thousands_mark.empty() && !seen.decimal_open) entry.set("thousands_mark", string_node(dialect.thousands_mark));
}

std::optional<std::size_t> place_of(const std::vector<Role>& roles, Becomes becomes) {
    const auto found = std::ranges::find(roles, becomes, &Role::becomes);
    return found == roles.end() ? std::nullopt : std::optional(static_cast<std::size_t>(found - roles.begin()));
}

/// Words for the approaches: those that say it themselves; where one of them does not, all are asked for.
Node approach_node(const char* key, Node where, const std::set<std::string>& words) {
    std::vector<Node> positive, negative;
    const bool open = std::ranges::any_of(words, [](const std::string& word) { return !approach_word(word); });
    for (const std::string& word : words)
        if (!open) (*approach_word(word) == Approach::Positive ? positive : negative).push_back(string_node(word));
    if (positive.empty()) positive.push_back(open_node());
    if (negative.empty()) negative.push_back(open_node());
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

    Node entry_of(const LookedAt& seen, const std::vector<Role>& roles, const std::string& pattern) {
        Node entry = object_node({named("file", string_node(pattern))});
        if (!seen.sheet.empty()) entry.set("sheet", string_node(seen.sheet));
        put_dialect(entry, seen);
        const bool readings = std::ranges::any_of(roles, [](const Role& role) { return is_reading(role.becomes); });
        if (readings) {
            put_position(entry, seen, roles);
            put_approach(entry, seen, roles);
            put_run(entry, seen, roles);
        }
        put_time(entry, seen, roles);
        if (const auto place = place_of(roles, Becomes::Mark); place && readings)
            entry.set("excluded", object_node({named("column", column_node(seen, *place)), named("reasons", open_node())}));
        if (readings) entry.set("values", values_node(seen, roles));
        put_environment(entry, seen, roles);
        if (entry.member("environment") != nullptr && entry.member("time") == nullptr) entry.set("time", open_node());
        return entry;
    }

private:
    static void put_position(Node& entry, const LookedAt& seen, const std::vector<Role>& roles) {
        if (const auto place = place_of(roles, Becomes::Position))
            entry.set("position", object_node({named("column", column_node(seen, *place))}));
        else if (!place_of(roles, Becomes::TargetColumn))
            entry.set("position", open_node());
    }

    static void put_approach(Node& entry, const LookedAt& seen, const std::vector<Role>& roles) {
        const std::vector<std::string> both = there_and_back(roles);
        const bool all_say_it = std::ranges::all_of(roles, [&](const Role& role) {
            return !is_reading(role.becomes) || role.approach || std::ranges::find(both, role.pattern) != both.end();
        });
        if (const auto place = place_of(roles, Becomes::Approach))
            entry.set("approach", approach_node("column", column_node(seen, *place), words_in(seen, *place)));
        else if (const auto told = told_above(seen, Becomes::Approach))
            entry.set("approach", approach_node("above", string_node(told->word), {told->value}));
        else if (!all_say_it)
            entry.set("approach", open_node());
    }

    static void put_run(Node& entry, const LookedAt& seen, const std::vector<Role>& roles) {
        const bool by_hand = std::ranges::any_of(roles, [](const Role& role) { return role.approach.has_value(); });
        const bool in_heads = place_of(roles, Becomes::RunColumn).has_value();
        if (const auto place = place_of(roles, Becomes::Run))
            entry.set("run", object_node({named("column", column_node(seen, *place))}));
        else if (const auto told = told_above(seen, Becomes::Run); told && !in_heads)
            entry.set("run", object_node({named("above", string_node(told->word))}));
        else if (by_hand)
            entry.set("run", string_node("file"));  // one column alone is not told apart from a column of all runs
        else if (!in_heads)
            entry.set("run", open_node());
    }

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

    /// The columns of one entry under "values", by the first of them: a pattern of heads, runs of one series, or that column alone.
    static std::vector<std::size_t> alike(const std::vector<Role>& roles, std::size_t first) {
        const Role& role = roles[first];
        std::vector<std::size_t> places;
        for (std::size_t place = 0; place < roles.size(); ++place) {
            const Role& other = roles[place];
            const bool run_of_it = role.approach && other.approach == role.approach && other.error == role.error && other.unit == role.unit;
            const bool same_kind = !role.pattern.empty() && other.pattern == role.pattern && other.becomes == role.becomes;
            if (place == first || run_of_it || same_kind) places.push_back(place);
        }
        return places;
    }

    static void put_columns(Node& node, const LookedAt& seen, const std::vector<Role>& roles, const std::vector<std::size_t>& places) {
        const Role& role = roles[places.front()];
        if (!role.pattern.empty() && !role.listed && !seen.by_number) {
            node.set("columns", string_node(role.pattern));
        } else if (places.size() == 1) {
            node.set("column", column_node(seen, places.front()));
        } else {
            std::vector<Node> columns;
            for (const std::size_t place : places) columns.push_back(column_node(seen, place));
            node.set("columns", array_node(std::move(columns)));
        }
    }

    Node values_node(const LookedAt& seen, const std::vector<Role>& roles) {
        std::vector<Node> values;
        std::set<std::size_t> done;
        std::map<std::string, std::string> shared;  // ids of series whose runs stand in several entries
        const std::vector<std::string> both = there_and_back(roles);
        const std::string position_unit = unit_of_positions(seen, roles);
        for (std::size_t first = 0; first < roles.size(); ++first) {
            const Role& role = roles[first];
            if (!is_reading(role.becomes) || done.contains(first)) continue;
            const std::vector<std::size_t> places = alike(roles, first);
            done.insert(places.begin(), places.end());
            const bool one_of_both = !role.pattern.empty() && std::ranges::find(both, role.pattern) != both.end();
            const std::string share = one_of_both ? "both" : role.approach ? "runs of " + role.error + " in " + role.unit : "";
            std::string id = share.empty() || !shared.contains(share) ? new_id(role, position_unit) : shared.at(share);
            if (!share.empty()) shared[share] = id;
            Node node = object_node({named("series", string_node(id))});
            put_columns(node, seen, roles, places);
            if (role.approach) node.set("approach", string_node(*role.approach == Approach::Positive ? "positive" : "negative"));
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
                machine.set(seen.heads.empty() || seen.heads[place].empty() ? fmt::format("column {}", place + 1) : seen.heads[place],
                            std::move(node));
            else
                environment.set(role.key, std::move(node));
        }
        if (!machine.items.empty()) environment.set("machine_C", std::move(machine));
        if (!environment.items.empty()) entry.set("environment", std::move(environment));
    }

    Node& series_;
};

}  // namespace

Node written_export(const LookedAt& seen, const std::vector<Role>& roles, const std::string& pattern, Node& series) {
    return Writer(series).entry_of(seen, roles, pattern);
}

}  // namespace wayfolio::gather
