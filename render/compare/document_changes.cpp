#include "compare/document_changes.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <optional>
#include <set>

namespace wayfolio::compare {

namespace {

using Json = nlohmann::ordered_json;

/// Told by ReadingChanges, with their numbers.
bool is_reading(const std::string& pointer, const std::string& key) {
    return pointer.starts_with("/series/") && (key == "runs" || key == "targets" || key == "trace");
}

std::string text(const Json& value) { return value.dump(-1, ' ', /*ensure_ascii=*/false, Json::error_handler_t::replace); }

bool named(const Json& array) {
    return !array.empty() && std::ranges::all_of(array, [](const Json& item) { return item.is_object() && item.contains("id") && item["id"].is_string(); });
}

/// Where an array has the item of this id.
std::optional<std::size_t> place_of(const Json& array, const std::string& id) {
    for (std::size_t i = 0; i < array.size(); ++i)
        if (array[i]["id"] == id) return i;
    return std::nullopt;
}

std::string escaped(std::string key) {
    std::string out;
    for (const char c : key) out += c == '~' ? "~0" : c == '/' ? "~1" : std::string(1, c);
    return out;
}

struct Walk {
    const std::vector<OtherId>& other_ids;  ///< of series; swapped ids are among them
    std::vector<Change> changes;
    std::string of;  ///< id of the item that the walk is in

    void add(const std::string& pointer, const Json* was, const Json* now) {
        changes.push_back({pointer, of, was ? text(*was) : "", now ? text(*now) : ""});
    }

    /// The id in the old document of what has this id in the new.
    [[nodiscard]] std::string old_id(const std::string& pointer, const std::string& id) const {
        const auto pair = std::ranges::find(other_ids, id, &OtherId::now);
        return pointer == "/series" && pair != other_ids.end() ? pair->was : id;
    }

    void objects(const Json& was, const Json& now, const std::string& pointer) {
        std::set<std::string> told;
        const auto one = [&](const std::string& key) {
            // "internal" never leaves the house; "x-" keys are the writer's own
            if (key == "internal" || key.starts_with("x-") || is_reading(pointer, key) || !told.insert(key).second) return;
            const std::string below = pointer + "/" + escaped(key);
            if (!was.contains(key)) return add(below, nullptr, &now[key]);
            if (!now.contains(key)) return add(below, &was[key], nullptr);
            values(was[key], now[key], below);
        };
        for (const auto& [key, value] : now.items()) one(key);
        for (const auto& [key, value] : was.items()) one(key);
    }

    /// Paired by id: an order that changed changes nothing.
    void named_items(const Json& was, const Json& now, const std::string& pointer) {
        const std::string outside = of;
        std::set<std::string> met;
        for (std::size_t i = 0; i < now.size(); ++i) {
            of = now[i]["id"];
            const std::string below = pointer + "/" + std::to_string(i);
            const std::string before_id = old_id(pointer, of);
            met.insert(before_id);
            if (const auto before = place_of(was, before_id)) values(was[*before], now[i], below);
            else changes.push_back({below, of, "", "added"});
        }
        for (std::size_t i = 0; i < was.size(); ++i) {
            const std::string id = was[i]["id"];
            if (!met.contains(id)) changes.push_back({pointer + "/" + std::to_string(i), id, "was there", ""});
        }
        of = outside;
    }

    void values(const Json& was, const Json& now, const std::string& pointer) {
        if (was == now) return;
        if (was.is_object() && now.is_object()) return objects(was, now, pointer);
        if (was.is_array() && now.is_array() && named(was) && named(now)) return named_items(was, now, pointer);
        if (was.is_array() && now.is_array() && was.size() == now.size()) {
            for (std::size_t i = 0; i < now.size(); ++i) values(was[i], now[i], pointer + "/" + std::to_string(i));
            return;
        }
        add(pointer, &was, &now);
    }
};

}  // namespace

std::vector<Change> document_changes(const std::string& was, const std::string& now, const std::vector<OtherId>& other_ids) {
    Walk walk{.other_ids = other_ids, .changes = {}, .of = {}};
    walk.values(Json::parse(was), Json::parse(now), "");
    return std::move(walk.changes);
}

}  // namespace wayfolio::compare
