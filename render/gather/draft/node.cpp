#include "gather/draft/node.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <utility>

namespace wayfolio::gather {
namespace {

using input::JsonKind;

constexpr std::size_t line_width = 120;

std::string string_text(std::string_view text) {
    std::string written = "\"";
    for (const char letter : text) {
        if (letter == '"' || letter == '\\') written += '\\';
        if (static_cast<unsigned char>(letter) < 0x20)
            written += fmt::format("\\u{:04x}", static_cast<unsigned>(letter));
        else
            written += letter;
    }
    return written + '"';
}

/// Writes it on one line, unless that takes more than `room` letters: then what was written of it has to be taken back.
bool write_flat(const Node& node, std::size_t room, std::string& text) {
    switch (node.kind) {
        case JsonKind::Null:
            text += "null";
            return true;
        case JsonKind::Boolean:
        case JsonKind::Number:
            text += node.text;
            return true;
        case JsonKind::String:
            text += string_text(node.text);
            return true;
        case JsonKind::Array:
        case JsonKind::Object:
            break;
    }
    const bool object = node.kind == JsonKind::Object;
    const std::size_t start = text.size();
    text += object ? '{' : '[';
    for (const Node& item : node.items) {
        if (&item != node.items.data()) text += ", ";
        if (object) text += string_text(item.key) + ": ";
        if (!write_flat(item, room, text) || text.size() - start > room) return false;
    }
    text += object ? '}' : ']';
    return true;
}

bool is_plain(const Node& node) { return node.kind != JsonKind::Array && node.kind != JsonKind::Object; }

void write(const Node& node, std::size_t depth, std::size_t taken, std::string& text) {
    // Readings stay on one line however many there are.
    const bool list = node.kind == JsonKind::Array && std::ranges::all_of(node.items, is_plain);
    const std::size_t room = is_plain(node) || list ? std::string::npos : line_width - std::min(line_width, taken + 2 * depth);
    const std::size_t start = text.size();
    if (write_flat(node, room, text)) return;
    text.resize(start);
    const bool object = node.kind == JsonKind::Object;
    text += object ? '{' : '[';
    for (const Node& item : node.items) {
        text += (&item == node.items.data() ? "\n" : ",\n") + std::string(2 * (depth + 1), ' ');
        const std::string key = object ? string_text(item.key) + ": " : "";
        text += key;
        write(item, depth + 1, key.size(), text);
    }
    text += "\n" + std::string(2 * depth, ' ') + (object ? '}' : ']');
}

/// About as many letters as a node takes when written: a document that grows by doubling would be held one and a half times more.
std::size_t about_letters(const Node& node) {
    constexpr std::size_t marks_and_blanks = 8;
    std::size_t letters = node.key.size() + node.text.size() + marks_and_blanks;
    for (const Node& item : node.items) letters += about_letters(item);
    return letters;
}

double number_of_literal(std::string_view literal) {
    double number = 0;
    std::from_chars(literal.data(), literal.data() + literal.size(), number);
    return number;
}

}  // namespace

const Node* Node::member(std::string_view name) const {
    const auto found = std::ranges::find(items, name, &Node::key);
    return kind != JsonKind::Object || found == items.end() ? nullptr : &*found;
}

Node* Node::member(std::string_view name) { return const_cast<Node*>(std::as_const(*this).member(name)); }

std::string_view Node::string(std::string_view name) const {
    const Node* const found = member(name);
    return found != nullptr && found->kind == JsonKind::String ? std::string_view(found->text) : std::string_view();
}

Node& Node::set(std::string_view name, Node value, std::span<const std::string_view> order) {
    value.key = name;
    if (Node* const there = member(name)) return *there = std::move(value);
    const auto rank = [&](std::string_view key) { return std::ranges::find(order, key) - order.begin(); };
    auto before = items.end();
    if (rank(name) < std::ssize(order))
        before = std::ranges::find_if(items,
                                      [&](const Node& item) { return rank(item.key) < std::ssize(order) && rank(item.key) > rank(name); });
    return *items.insert(before, std::move(value));
}

bool Node::says_the_same(const Node& other) const {
    if (kind != other.kind || items.size() != other.items.size()) return false;
    if (kind == JsonKind::Number) return number_of_literal(text) == number_of_literal(other.text);
    if (kind == JsonKind::Array)
        return std::ranges::equal(items, other.items, [](const Node& a, const Node& b) { return a.says_the_same(b); });
    if (kind != JsonKind::Object) return text == other.text;
    return std::ranges::all_of(items, [&](const Node& item) {
        const Node* const same = other.member(item.key);
        return same != nullptr && item.says_the_same(*same);
    });
}

Node node_of(const input::Value& value) {
    Node node{.kind = value.kind, .key = std::string(value.key)};
    if (value.is(JsonKind::Boolean))
        node.text = value.boolean ? "true" : "false";
    else
        node.text = value.text;
    node.items.reserve(value.items.size());
    for (const input::Value& item : value.items) node.items.push_back(node_of(item));
    return node;
}

Node string_node(std::string_view text) { return {.kind = JsonKind::String, .text = std::string(text)}; }
Node number_node(std::string literal) { return {.kind = JsonKind::Number, .text = std::move(literal)}; }
Node array_node(std::vector<Node> items) { return {.kind = JsonKind::Array, .items = std::move(items)}; }
Node object_node(std::vector<Node> members) { return {.kind = JsonKind::Object, .items = std::move(members)}; }

Node named(std::string_view key, Node value) {
    value.key = key;
    return value;
}

std::string written(const Node& node) {
    std::string text;
    text.reserve(about_letters(node));
    write(node, 0, 0, text);
    text += '\n';
    return text;
}

}  // namespace wayfolio::gather
