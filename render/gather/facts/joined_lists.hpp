#pragma once
#include "gather/draft/node.hpp"

#include <array>
#include <string_view>

namespace wayfolio::gather {

/// A list of a document that is joined item by item.
struct JoinedList {
    std::string_view key;
    std::array<std::string_view, 3> named_by{};  ///< the members that together name an item; none: a text names itself
    std::string_view serial{};                   ///< the member that tells two things apart whatever they are called, "" for none

    [[nodiscard]] bool names_the_same(const Node& one, const Node& other) const;
    /// Whether two items of different names have one serial number, of one maker where both name him.
    [[nodiscard]] bool is_the_same_thing(const Node& one, const Node& other) const;
};

/// The list that is called `key`, or nullptr where a list of that key is one value.
const JoinedList* joined_list(std::string_view key);

}  // namespace wayfolio::gather
