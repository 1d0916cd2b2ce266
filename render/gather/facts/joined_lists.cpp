#include "gather/facts/joined_lists.hpp"

#include <algorithm>

namespace wayfolio::gather {
namespace {

constexpr std::array<JoinedList, 10> lists{{{"instruments", {"id"}, "serial"},
                                            {"contributors", {"name"}},
                                            {"axes", {"name"}},
                                            {"people", {"role", "name"}},
                                            {"checks", {"name", "axis", "position"}},
                                            {"capability", {"error", "parameter"}},
                                            {"tolerances", {"parameter", "length_mm"}},
                                            {"applies_to"},
                                            {"remarks"},
                                            {"agreed"}}};

bool same_member(const Node& one, const Node& other, std::string_view key) {
    const Node *const mine = one.member(key), *const theirs = other.member(key);
    if (mine == nullptr || theirs == nullptr) return mine == theirs;
    return mine->says_the_same(*theirs);
}

}  // namespace

bool JoinedList::names_the_same(const Node& one, const Node& other) const {
    if (named_by[0].empty()) return one.says_the_same(other);
    return std::ranges::all_of(named_by, [&](std::string_view member) { return member.empty() || same_member(one, other, member); });
}

bool JoinedList::is_the_same_thing(const Node& one, const Node& other) const {
    if (serial.empty() || one.string(serial).empty() || one.string(serial) != other.string(serial)) return false;
    const std::string_view maker = one.string("maker"), other_maker = other.string("maker");
    return maker.empty() || other_maker.empty() || maker == other_maker;
}

const JoinedList* joined_list(std::string_view key) {
    const auto found = std::ranges::find(lists, key, &JoinedList::key);
    return found == lists.end() ? nullptr : &*found;
}

}  // namespace wayfolio::gather
