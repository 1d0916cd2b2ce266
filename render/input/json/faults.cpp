#include "input/json/object_reader.hpp"

#include "input/problem.hpp"

#include <algorithm>
#include <utility>

namespace wayfolio::input {

Faults::Faults(std::string file, const Json& json) : file_(std::move(file)), root_(json.root) {
    for (const Problem& problem : json.problems) keep({problem.place.line, problem.place.column, problem});
}

void Faults::add(const Value& at, std::string found, std::string expected, std::string hint) {
    Place place{at.line, at.column, pointer_of(root_, at)};
    keep({at.line, at.column, {file_, std::move(place), std::move(found), std::move(expected), std::move(hint)}});
}

void Faults::add_wrong(const Value& at, std::string expected, std::string hint) {
    add(at, describe(at), std::move(expected), std::move(hint));
}

void Faults::add_missing(const Value& object, std::string_view key, std::string expected, std::string hint) {
    Place place{object.line, object.column, pointer_step(pointer_of(root_, object), key)};
    keep({object.line, object.column,
          {file_, std::move(place), "no key " + quoted(key), std::move(expected), std::move(hint)}});
}

void Faults::add_key(const Value& member, std::string expected, std::string hint) {
    Place place{member.key_line, member.key_column, pointer_of(root_, member)};
    keep({member.key_line, member.key_column,
          {file_, std::move(place), "the key " + quoted(member.key), std::move(expected), std::move(hint)}});
}

void Faults::add_side_file(const Value& mention, Problem problem) {
    keep({mention.line, mention.column, std::move(problem)});
}

void Faults::keep(Noted noted) {
    noted_.push_back(std::move(noted));
    // A file can be wrong a million times; only the first few are told.
    if (noted_.size() >= 20 * InputRejected::cap) sort_and_cut();
}

void Faults::sort_and_cut() {
    std::ranges::stable_sort(noted_, {}, [](const Noted& noted) { return std::pair(noted.line, noted.column); });
    if (noted_.size() > InputRejected::cap) noted_.erase(noted_.begin() + InputRejected::cap, noted_.end());
}

void Faults::reject_if_any() {
    if (noted_.empty()) return;
    sort_and_cut();
    std::vector<Problem> problems;
    problems.reserve(noted_.size());
    for (Noted& noted : noted_) problems.push_back(std::move(noted.problem));
    throw InputRejected(std::move(problems));
}

}  // namespace wayfolio::input
