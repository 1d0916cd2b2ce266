#include "compare/changes.hpp"

#include "input/json/object_reader.hpp"

#include <algorithm>
#include <set>

namespace wayfolio::compare {

namespace {

using input::JsonKind;
using input::Value;

/// Told by ReadingChanges, with their numbers.
bool is_reading(std::string_view pointer, std::string_view key) {
    return pointer.starts_with("/series/") && (key == "runs" || key == "targets" || key == "trace");
}

/// The id of an item that has one.
std::string_view id_of(const Value& item) {
    const Value* const id = item.member("id");
    return id && id->is(JsonKind::String) ? id->text : std::string_view();
}

bool named(const Value& array) {
    return !array.items.empty() && std::ranges::all_of(array.items, [](const Value& item) { return !id_of(item).empty(); });
}

bool both(const Value& was, const Value& now, JsonKind kind) { return was.is(kind) && now.is(kind); }

struct Walk {
    const std::vector<OtherId>& other_ids;  ///< of series; swapped ids are among them
    std::vector<Change> changes;
    std::string of;  ///< id of the item that the walk is in

    void add(const std::string& pointer, const Value* was, const Value* now) {
        changes.push_back({pointer, of, was ? input::compact(*was) : "", now ? input::compact(*now) : ""});
    }

    /// The id in the old document of what has this id in the new.
    [[nodiscard]] std::string old_id(const std::string& pointer, const std::string& id) const {
        const auto pair = std::ranges::find(other_ids, id, &OtherId::now);
        return pointer == "/series" && pair != other_ids.end() ? pair->was : id;
    }

    void objects(const Value& was, const Value& now, const std::string& pointer) {
        const auto told = [&](const Value& member) {
            // "internal" never leaves the house; "x-" keys are the writer's own; "$schema" is for editors
            return input::is_passed_over(member.key) || is_reading(pointer, member.key) || (pointer.empty() && member.key == "$schema");
        };
        for (const Value& member : now.items) {
            if (told(member)) continue;
            const std::string below = input::pointer_step(pointer, member.key);
            if (const Value* const before = was.member(member.key)) values(*before, member, below);
            else add(below, nullptr, &member);
        }
        for (const Value& member : was.items)
            if (!told(member) && !now.member(member.key)) add(input::pointer_step(pointer, member.key), &member, nullptr);
    }

    /// Paired by id: an order that changed changes nothing.
    void named_items(const Value& was, const Value& now, const std::string& pointer) {
        const std::string outside = of;
        std::set<std::string, std::less<>> met;
        for (std::size_t i = 0; i < now.items.size(); ++i) {
            of = id_of(now.items[i]);
            const std::string below = pointer + "/" + std::to_string(i);
            const std::string before_id = old_id(pointer, of);
            met.insert(before_id);
            const auto before = std::ranges::find(was.items, before_id, id_of);
            if (before != was.items.end()) values(*before, now.items[i], below);
            else changes.push_back({below, of, "", "added"});
        }
        for (std::size_t i = 0; i < was.items.size(); ++i)
            if (const std::string id(id_of(was.items[i])); !met.contains(id))
                changes.push_back({pointer + "/" + std::to_string(i), id, "was there", ""});
        of = outside;
    }

    void values(const Value& was, const Value& now, const std::string& pointer) {
        if (both(was, now, JsonKind::Object)) return objects(was, now, pointer);
        const bool arrays = both(was, now, JsonKind::Array);
        if (arrays && named(was) && named(now)) return named_items(was, now, pointer);
        if (arrays && was.items.size() == now.items.size()) {
            for (std::size_t i = 0; i < now.items.size(); ++i) values(was.items[i], now.items[i], pointer + "/" + std::to_string(i));
            return;
        }
        if (arrays || !input::same_plain(was, now)) add(pointer, &was, &now);
    }
};

}  // namespace

std::vector<Change> document_changes(const std::string& was, const std::string& now, const std::vector<OtherId>& other_ids) {
    Walk walk{.other_ids = other_ids, .changes = {}, .of = {}};
    const input::Json before = input::read_json(was, "old"), after = input::read_json(now, "new");
    walk.values(before.root, after.root, "");
    return std::move(walk.changes);
}

}  // namespace wayfolio::compare
