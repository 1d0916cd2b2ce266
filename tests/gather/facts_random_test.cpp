#include "gather/facts/merge_facts.hpp"
#include "gather/gathering.hpp"
#include "input/read_file.hpp"

#include <rapidcheck.h>
#include <catch2/catch.hpp>

#include <array>

using namespace wayfolio;
using namespace wayfolio::gather;

namespace {

constexpr std::size_t parts = 3;
using Heads = std::array<Node, parts>;

bool is_joined(const Node& node) {
    return node.kind == input::JsonKind::Array &&
           (node.key == "instruments" || node.key == "contributors" || node.key == "people" || node.key == "checks" || node.key == "axes");
}

/// What names an item, which must stand wherever a part of the item does.
bool is_name(const Node& member) {
    return member.key == "id" || member.key == "name" || member.key == "role" || member.key == "axis" || member.key == "position";
}

/// Which of the objects that are there get something: at least one.
std::array<bool, parts> some_of(const std::array<Node*, parts>& there) {
    std::array<bool, parts> chosen{};
    const auto mask = static_cast<unsigned>(*rc::gen::inRange(1, 1 << parts));
    bool any = false;
    for (std::size_t part = 0; part < parts; ++part) any = any || (chosen[part] = there[part] != nullptr && (mask >> part & 1U) != 0);
    for (std::size_t part = 0; !any && part < parts; ++part) chosen[part] = there[part] != nullptr;
    return chosen;
}

/// Deals the members of an object out to objects of its kind, each member to one of them or to several.
void deal(const Node& object, const std::array<Node*, parts>& into) {
    for (const Node& member : object.items) {
        for (std::size_t part = 0; part < parts; ++part)
            if (is_name(member) && into[part] != nullptr) into[part]->set(member.key, member);
        if (is_name(member)) continue;
        const bool nested = member.kind == input::JsonKind::Object, list = is_joined(member);
        const auto chosen = some_of(into);
        std::array<Node*, parts> nodes{};
        for (std::size_t part = 0; part < parts; ++part)
            if (chosen[part]) nodes[part] = &into[part]->set(member.key, nested ? object_node() : list ? array_node() : member);
        if (nested) deal(member, nodes);
        for (std::size_t item = 0; list && item < member.items.size(); ++item) {
            const auto holders = some_of(nodes);
            std::array<Node*, parts> items{};
            for (std::size_t part = 0; part < parts; ++part)
                if (holders[part]) items[part] = &nodes[part]->items.emplace_back(object_node());
            deal(member.items[item], items);
        }
    }
}

/// Every member and item of `less` that `more` lacks or has otherwise, as JSON Pointers; items of joined lists wherever they stand.
void note_lacks(const Node& less, const Node& more, const std::string& pointer, std::vector<std::string>& lacks) {
    for (const Node& member : less.items) {
        const Node* const there = more.member(member.key);
        const std::string at = pointer + "/" + member.key;
        if (there == nullptr)
            lacks.push_back(at);
        else if (member.kind == input::JsonKind::Object)
            note_lacks(member, *there, at, lacks);
        else if (is_joined(member)) {
            for (const Node& item : member.items)
                if (std::ranges::none_of(there->items, [&](const Node& one) { return one.says_the_same(item); }))
                    lacks.push_back(at + "/…");
            if (member.items.size() != there->items.size()) lacks.push_back(at + ": count");
        } else if (!member.says_the_same(*there))
            lacks.push_back(at);
    }
}

}  // namespace

TEST_CASE("a document's head that is dealt out to three files of facts, some of it twice, comes back whole") {
    const std::string text = input::read_file(std::string(WAYFOLIO_SOURCE_FOLDER) + "/sample-results/long-axis.json");
    const Node sample = node_of(input::read_json(text, "sample").root);
    Node head = object_node();
    for (const char* key : {"job", "machine", "instruments", "setup", "evaluation", "uncertainty"}) head.set(key, *sample.member(key));
    CHECK(rc::check([&] {
        Heads files;
        std::array<Node*, parts> into{};
        for (std::size_t part = 0; part < parts; ++part) {
            files[part] = object_node({named("format", string_node("wayfolio-facts")), named("version", number_node("1"))});
            into[part] = &files[part];
        }
        deal(head, into);
        std::vector<FactsFile> facts;
        for (std::size_t part = 0; part < parts; ++part) {
            const std::string name = std::to_string(part) + ".json";
            facts.push_back({name, name, written(files[part]), {}});
        }
        Node document = object_node({named("series", *sample.member("series"))});
        const MergedFacts merged = merge_facts(document, facts, [](const std::string& pointer) {
            return Source{"document", {0, 0, pointer}};
        });
        RC_ASSERT(merged.problems.empty());
        std::vector<std::string> lacks;
        note_lacks(head, document, "", lacks);
        for (const std::string& one : lacks) RC_FAIL(one);
    }));
}
