#pragma once
#include "input/json/json.hpp"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::gather {

/// A JSON value that is put together. A number is the text that it was written with: a stated 22.10 says more than 22.1.
struct Node {
    input::JsonKind kind = input::JsonKind::Null;
    std::string text{};  ///< a string as it is, a number as written, true or false
    std::string key{};   ///< of a member of an object
    std::vector<Node> items{};

    /// The member called `name`, or nullptr.
    [[nodiscard]] const Node* member(std::string_view name) const;
    [[nodiscard]] Node* member(std::string_view name);
    /// Sets a member: in the place of one of its name, else where `order` puts it, last where that does not name it.
    Node& set(std::string_view name, Node value, std::span<const std::string_view> order = {});
    /// The text of a member that is a string, else "".
    [[nodiscard]] std::string_view string(std::string_view name) const;
    /// Whether both say the same: numbers by their value, members in any order.
    [[nodiscard]] bool says_the_same(const Node& other) const;
};

Node node_of(const input::Value& value);
Node string_node(std::string_view text);
/// @param literal a number as JSON writes it, or a whole list of numbers, which is then one text
Node number_node(std::string literal);
Node array_node(std::vector<Node> items = {});
Node object_node(std::vector<Node> members = {});
/// The value with a key, for object_node().
Node named(std::string_view key, Node value);

/// As a file: indented by two, what fits into a line on one, with a line end.
std::string written(const Node& node);

}  // namespace wayfolio::gather
