#include "gather/facts/merge_facts.hpp"

#include "document/facts.hpp"
#include "gather/draft/document_order.hpp"
#include "gather/facts/joined_lists.hpp"
#include "input/digest.hpp"
#include "input/encoding.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <memory>
#include <set>

namespace wayfolio::gather {
namespace {

using input::JsonKind;

bool is_container(const Node& node) { return node.kind == JsonKind::Array || node.kind == JsonKind::Object; }

/// What stays in the file of facts.
bool stays(std::string_view key) {
    constexpr std::array<std::string_view, 5> keys{"$schema", "format", "version", "limits", "internal"};
    return std::ranges::find(keys, key) != keys.end();
}

std::span<const std::string_view> order_of(std::string_view pointer) {
    if (pointer.empty()) return document_keys;
    return pointer == "/job" ? std::span<const std::string_view>(job_keys) : std::span<const std::string_view>();
}

/// One file of facts while it is merged.
struct Part {
    const FactsFile& file;
    std::unique_ptr<input::Json> json;
    Node facts;
    FactsAccount account;

    [[nodiscard]] Source at(const std::string& pointer) const {
        const input::Value* const value = input::value_at(json->root, pointer);
        return {file.path, value == nullptr ? input::Place{0, 0, pointer} : input::Place{value->line, value->column, pointer}};
    }
};

/// A logo beside the facts goes into the document itself: the document lies elsewhere.
void freeze_logo(Node& facts, const FactsFile& file) {
    Node* const job = facts.member("job");
    Node* const laboratory = job == nullptr ? nullptr : job->member("laboratory");
    Node* const logo = laboratory == nullptr ? nullptr : laboratory->member("logo");
    if (logo == nullptr || logo->text.starts_with("data:")) return;
    std::string bytes;
    try {
        bytes = file.read_side_file(logo->text);
    } catch (const input::InputMissing&) {  // kept facts lie without their logo
        std::erase_if(laboratory->items, [&](const Node& member) { return &member == logo; });
        return;
    }
    const std::string_view kind = bytes.starts_with("\x89PNG") ? "png" : "svg+xml";
    logo->text = fmt::format("data:image/{};base64,{}", kind, input::base64(bytes));
}

class Merger {
public:
    Merger(Node& document, MergedFacts& merged, const std::function<Source(const std::string&)>& before)
        : document_(document), merged_(merged), before_(before) {
        if (const Node* const all = document.member("series"))
            for (const Node& series : all->items) errors_.emplace(series.string("error"));
    }

    void merge(Part& part) {
        for (const Node& member : part.facts.items)
            if (!stays(member.key)) merge_member(document_, member, {"", ""}, part);
    }

    /// After all else, for a limit may ask for the kind of machine.
    void merge_limits(Part& part) {
        const Node* const limits = part.facts.member("limits");
        const Node* const machine = document_.member("machine");
        const std::string kind(machine == nullptr ? std::string_view() : machine->string("kind"));
        for (std::size_t place = 0; limits != nullptr && place < limits->items.size(); ++place) {
            const Node& one = limits->items[place];
            const bool fits = one.member("machine_kind") == nullptr || one.string("machine_kind") == kind;
            if (!fits || !errors_.contains(one.string("error")))
                part.account.left_out += one.member("tolerances")->items.size();
            else
                limit_series(one, place, part);
        }
    }

private:
    /// Where something stands: in the document, and in the facts.
    struct Pointers {
        std::string document, facts;
        [[nodiscard]] Pointers step(std::string_view in_document, std::string_view in_facts) const {
            return {input::pointer_step(document, in_document), input::pointer_step(facts, in_facts)};
        }
        [[nodiscard]] Pointers step(std::size_t in_document, std::size_t in_facts) const {
            return step(std::to_string(in_document), std::to_string(in_facts));
        }
    };

    void limit_series(const Node& limits, std::size_t place, Part& part) {
        Node& all = *document_.member("series");
        for (std::size_t series = 0; series < all.items.size(); ++series)
            if (all.items[series].string("error") == limits.string("error"))
                merge_member(all.items[series], *limits.member("tolerances"),
                             {fmt::format("/series/{}", series), fmt::format("/limits/{}", place)}, part);
    }

    void merge_member(Node& object, const Node& fact, const Pointers& of, Part& part) {
        const Pointers at = of.step(fact.key, fact.key);
        const JoinedList* const list = fact.kind == JsonKind::Array ? joined_list(fact.key) : nullptr;
        Node* const there = object.member(fact.key);
        const auto order = of.document.starts_with("/series/") ? std::span<const std::string_view>(series_keys) : order_of(of.document);
        if (there != nullptr && there->kind == fact.kind && list != nullptr) return join(*there, fact, *list, at, part);
        if (there != nullptr && there->kind == JsonKind::Object && fact.kind == JsonKind::Object)
            return join_objects(*there, fact, at, part);
        if (there != nullptr) return same(*there, fact, at, part);
        if (list != nullptr || fact.kind == JsonKind::Object) {
            Node fresh = list != nullptr ? array_node() : object_node();
            fresh.key = fact.key;
            if (list != nullptr)
                join(fresh, fact, *list, at, part);
            else
                join_objects(fresh, fact, at, part);
            if (fresh.items.empty() && !fact.items.empty()) return;
            note(at, part);
            object.set(fact.key, std::move(fresh), order);
            return;
        }
        take(fact, at, part);
        object.set(fact.key, fact, order);
    }

    void join_objects(Node& there, const Node& facts, const Pointers& at, Part& part) {
        for (const Node& member : facts.items) merge_member(there, member, at, part);
    }

    void join(Node& there, const Node& facts, const JoinedList& list, const Pointers& at, Part& part) {
        for (std::size_t place = 0; place < facts.items.size(); ++place) {
            const Node& fact = facts.items[place];
            const Node* const applies_to = fact.member("applies_to");
            if (applies_to != nullptr && std::ranges::none_of(applies_to->items, [&](const Node& one) { return is_measured(one); })) {
                ++part.account.left_out;
                continue;
            }
            if (facts.key == "applies_to" && !is_measured(fact)) continue;
            const auto same_one = std::ranges::find_if(there.items, [&](const Node& one) { return list.names_the_same(one, fact); });
            const auto in_document = static_cast<std::size_t>(same_one - there.items.begin());
            const Pointers item = at.step(in_document, place);
            if (fact.kind != JsonKind::Object) {
                if (same_one != there.items.end()) {
                    ++part.account.there;
                    continue;
                }
                take(fact, item, part);
                there.items.push_back(fact);
                continue;
            }
            if (same_one == there.items.end()) {
                refuse_second_name(there, fact, list, at, place, part);
                note(item, part);
                there.items.push_back(object_node());
            }
            join_objects(there.items[in_document], fact, item, part);
        }
    }

    /// The same instrument under two names would be two instruments.
    void refuse_second_name(const Node& there, const Node& fact, const JoinedList& list, const Pointers& at, std::size_t place,
                            const Part& part) {
        const auto other = std::ranges::find_if(there.items, [&](const Node& one) { return list.is_the_same_thing(one, fact); });
        if (other == there.items.end()) return;
        const auto in_document = static_cast<std::size_t>(other - there.items.begin());
        const Pointers item = at.step(in_document, place).step("serial", "serial");
        conflict(*fact.member("serial"), item, part,
                 fmt::format("a serial number that stands under one id; at {} it stands under {}", place_words(item.document),
                             input::quoted(other->string("id"))));
    }

    void same(const Node& there, const Node& fact, const Pointers& at, Part& part) {
        if (there.says_the_same(fact)) {
            part.account.there += leaves(fact);
            return;
        }
        conflict(fact, at, part,
                 fmt::format("the same as at {}: {}", place_words(at.document), is_container(there) ? "another list" : words(there)));
    }

    void conflict(const Node& fact, const Pointers& at, const Part& part, std::string expected) {
        Source source = part.at(at.facts);
        merged_.problems.push_back({std::move(source.file), std::move(source.place), is_container(fact) ? "a list" : words(fact),
                                    std::move(expected), "a fact stands in one place: mend one of the two, or leave it out"});
    }

    [[nodiscard]] std::string place_words(const std::string& pointer) const {
        const Source* const facts = source_of(merged_.sources, pointer);
        const Source source = facts == nullptr ? before_(pointer) : *facts;
        if (source.place.line == 0) return fmt::format("{}: {}", source.file, source.place.pointer);
        return fmt::format("{}:{}:{}", source.file, source.place.line, source.place.column);
    }

    static std::string words(const Node& node) {
        return node.kind == JsonKind::String ? input::quoted(node.text) : node.kind == JsonKind::Null ? "null" : node.text;
    }

    [[nodiscard]] bool is_measured(const Node& error) const { return errors_.contains(error.text); }

    static std::size_t leaves(const Node& node) {
        if (!is_container(node)) return 1;
        std::size_t sum = 0;
        for (const Node& item : node.items) sum += leaves(item);
        return sum;
    }

    void note(const Pointers& at, const Part& part) { merged_.sources.emplace(at.document, part.at(at.facts)); }

    void take(const Node& fact, const Pointers& at, Part& part) {
        note(at, part);
        if (!is_container(fact)) ++part.account.taken;
        for (std::size_t place = 0; place < fact.items.size(); ++place)
            take(fact.items[place],
                 fact.kind == JsonKind::Object ? at.step(fact.items[place].key, fact.items[place].key) : at.step(place, place), part);
    }

    Node& document_;
    MergedFacts& merged_;
    const std::function<Source(const std::string&)>& before_;
    std::set<std::string, std::less<>> errors_;
};

std::vector<Part> read_parts(const std::vector<FactsFile>& files) {
    std::vector<Part> parts;
    for (const FactsFile& file : files) {
        auto json = std::make_unique<input::Json>(input::read_json(file.bytes, file.path));
        Node facts = node_of(json->root);
        freeze_logo(facts, file);
        parts.push_back({file, std::move(json), std::move(facts), {.file = file.name, .sha256 = input::sha256_hex(file.bytes)}});
    }
    return parts;
}

}  // namespace

std::vector<input::Problem> faults_of(const std::vector<FactsFile>& files) {
    std::vector<input::Problem> problems;
    for (const FactsFile& file : files) try {
            (void)document::read_facts(file.bytes, file.path, file.read_side_file);
        } catch (const input::InputRejected& rejected) {
            problems.insert(problems.end(), rejected.problems().begin(), rejected.problems().end());
        }
    return problems;
}

const Source* source_of(const Sources& sources, std::string_view pointer) {
    while (!pointer.empty()) {
        if (const auto found = sources.find(pointer); found != sources.end()) return &found->second;
        pointer = pointer.substr(0, pointer.rfind('/'));
    }
    return nullptr;
}

std::vector<std::string> facts_that_differ(const std::string& document, const std::vector<FactsFile>& files) {
    Node node = node_of(input::read_json(document, "the document").root);
    const auto in_document = [](const std::string& pointer) { return Source{"the document", {0, 0, pointer}}; };
    const MergedFacts merged = merge_facts(node, files, in_document);
    std::vector<std::string> lines;
    for (const input::Problem& problem : merged.problems) lines.push_back(input::to_text(problem));
    for (const auto& [pointer, source] : merged.sources)
        lines.push_back(fmt::format("{}: {} is not in the document", source.file, source.place.pointer));
    return lines;
}

MergedFacts merge_facts(Node& document, const std::vector<FactsFile>& files, const std::function<Source(const std::string&)>& before) {
    MergedFacts merged;
    std::vector<Part> parts = read_parts(files);
    Merger merger(document, merged, before);
    for (Part& part : parts) merger.merge(part);
    for (Part& part : parts) merger.merge_limits(part);
    for (Part& part : parts) merged.accounts.push_back(std::move(part.account));
    return merged;
}

}  // namespace wayfolio::gather
