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

/// The text of an array or an object; parts without a text are left out.
class Written {
public:
    Written(char begin, char end) : text_(1, begin), end_(end) {}
    void item(const std::string& part) {
        if (!part.empty()) text_ += (text_.size() > 1 ? "," : "") + part;
    }
    void member(std::string_view key, const std::string& part) {
        if (!part.empty()) item(input::compact(Value{.kind = JsonKind::String, .text = key}) + ":" + part);
    }
    [[nodiscard]] std::string text() const { return text_ + end_; }

private:
    std::string text_;
    char end_;
};

/// Both documents, side by side; on request it writes the old one with some of the changes.
struct Walk {
    const std::vector<OtherId>& other_ids;  ///< of series; swapped ids are among them
    const TakenOver* taken = nullptr;       ///< nullptr: nothing is written
    std::vector<Change> changes = {};
    std::string of = {};  ///< id of the item that the walk is in

    [[nodiscard]] std::string written(const Value* value) const { return taken && value ? input::compact(*value) : std::string(); }
    [[nodiscard]] bool takes(std::size_t change) const { return taken && taken->changes.contains(change); }

    /// @return what is written in its place; empty: nothing
    std::string add(const std::string& pointer, const Value* was, const Value* now) {
        changes.push_back({pointer, of, was ? input::compact(*was) : "", now ? input::compact(*now) : ""});
        return written(takes(changes.size() - 1) ? now : was);
    }

    /// The id in the old document of what has this id in the new.
    [[nodiscard]] std::string old_id(const std::string& pointer, const std::string& id) const {
        const auto pair = std::ranges::find(other_ids, id, &OtherId::now);
        return pointer == "/series" && pair != other_ids.end() ? pair->was : id;
    }

    std::string objects(const Value& was, const Value& now, const std::string& pointer) {
        // "internal" never leaves the house; "x-" keys are the writer's own; "$schema" is for editors
        const auto untold = [&](const Value& member) {
            return input::is_passed_over(member.key) || (pointer.empty() && member.key == "$schema");
        };
        Written object('{', '}');
        const bool other_readings = taken && taken->readings_of.contains(of);
        for (const Value& member : now.items) {
            if (untold(member)) continue;
            const Value* const before = was.member(member.key);
            const std::string below = input::pointer_step(pointer, member.key);
            if (is_reading(pointer, member.key)) object.member(member.key, written(other_readings ? &member : before));
            else object.member(member.key, before ? values(*before, member, below) : add(below, nullptr, &member));
        }
        for (const Value& member : was.items) {
            if (untold(member) || now.member(member.key)) continue;
            if (is_reading(pointer, member.key)) object.member(member.key, written(other_readings ? nullptr : &member));
            else object.member(member.key, add(input::pointer_step(pointer, member.key), &member, nullptr));
        }
        return object.text();
    }

    /// Paired by id: an order that changed changes nothing.
    std::string named_items(const Value& was, const Value& now, const std::string& pointer) {
        const std::string outside = of;
        Written array('[', ']');
        std::set<std::string, std::less<>> met;
        for (std::size_t i = 0; i < now.items.size(); ++i) {
            of = id_of(now.items[i]);
            const std::string below = pointer + "/" + std::to_string(i);
            const std::string before_id = old_id(pointer, of);
            met.insert(before_id);
            const auto before = std::ranges::find(was.items, before_id, id_of);
            if (before != was.items.end()) {
                array.item(values(*before, now.items[i], below));
            } else {
                changes.push_back({below, of, "", "added"});
                array.item(takes(changes.size() - 1) ? written(&now.items[i]) : "");
            }
        }
        for (std::size_t i = 0; i < was.items.size(); ++i) {
            const std::string id(id_of(was.items[i]));
            if (met.contains(id)) continue;
            changes.push_back({pointer + "/" + std::to_string(i), id, "was there", ""});
            array.item(takes(changes.size() - 1) ? "" : written(&was.items[i]));
        }
        of = outside;
        return array.text();
    }

    std::string values(const Value& was, const Value& now, const std::string& pointer) {
        if (both(was, now, JsonKind::Object)) return objects(was, now, pointer);
        const bool arrays = both(was, now, JsonKind::Array);
        if (arrays && named(was) && named(now)) return named_items(was, now, pointer);
        if (arrays && was.items.size() == now.items.size()) {
            Written array('[', ']');
            for (std::size_t i = 0; i < now.items.size(); ++i)
                array.item(values(was.items[i], now.items[i], pointer + "/" + std::to_string(i)));
            return array.text();
        }
        if (arrays || !input::same_plain(was, now)) return add(pointer, &was, &now);
        return written(&was);
    }
};

}  // namespace

std::vector<Change> document_changes(const std::string& was, const std::string& now, const std::vector<OtherId>& other_ids) {
    Walk walk{.other_ids = other_ids};
    const input::Json before = input::read_json(was, "old"), after = input::read_json(now, "new");
    walk.values(before.root, after.root, "");
    return std::move(walk.changes);
}

std::string with_changes(const std::string& was, const std::string& now, const std::vector<OtherId>& other_ids, const TakenOver& taken) {
    Walk walk{.other_ids = other_ids, .taken = &taken};
    const input::Json before = input::read_json(was, "old"), after = input::read_json(now, "new");
    return walk.values(before.root, after.root, "");
}

}  // namespace wayfolio::compare
