#include "input/json/json.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <fmt/format.h>
#include <utility>

namespace wayfolio::input {
namespace {

constexpr std::size_t longest_shown = 60;

void append_string(std::string& into, std::string_view text) {
    into += '"';
    for (const char letter : text) {
        constexpr std::string_view written = "\"\\\b\f\n\r\t", names = "\"\\bfnrt";
        const std::size_t place = written.find(letter);
        if (place != std::string_view::npos) (into += '\\') += names[place];
        else if (static_cast<unsigned char>(letter) < 0x20) into += fmt::format("\\u{:04x}", static_cast<int>(letter));
        else into += letter;
    }
    into += '"';
}

/// A whole number as it is written; others without zeros at their end, but for one behind the point.
std::string plain_number(const Value& value) {
    constexpr double least = 1e-4, most = 1e15;
    const double size = std::abs(value.number);
    const bool whole = value.text.find_first_of(".eE") == std::string_view::npos, far = size != 0 && (size < least || size >= most);
    if (whole || far) return std::string(value.text);
    std::array<char, 64> digits;
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), value.number, std::chars_format::fixed);
    const std::string text(digits.data(), end.ptr);
    return text.find('.') == std::string::npos ? text + ".0" : text;
}

void append(std::string& into, const Value& value) {
    const bool object = value.is(JsonKind::Object);
    if (value.is(JsonKind::String)) return append_string(into, value.text);
    if (value.is(JsonKind::Number)) {
        into += plain_number(value);
        return;
    }
    if (!object && !value.is(JsonKind::Array)) {
        into += describe(value);
        return;
    }
    into += object ? '{' : '[';
    for (const Value& item : value.items) {
        if (&item != value.items.data()) into += ',';
        if (object) append_string(into, item.key), into += ':';
        append(into, item);
    }
    into += object ? '}' : ']';
}

}  // namespace

const Value* Value::member(std::string_view name) const {
    if (kind != JsonKind::Object) return nullptr;
    const auto found = std::ranges::find(items, name, &Value::key);
    return found == items.end() ? nullptr : &*found;
}

bool same_plain(const Value& a, const Value& b) {
    if (a.kind != b.kind) return false;
    return a.is(JsonKind::Number) ? a.number == b.number : a.is(JsonKind::Boolean) ? a.boolean == b.boolean : a.text == b.text;
}

std::string pointer_step(std::string pointer, std::string_view key) {
    pointer += '/';
    for (const char letter : key) {
        if (letter == '~') pointer += "~0";
        else if (letter == '/') pointer += "~1";
        else pointer += letter;
    }
    return pointer;
}

std::string pointer_of(const Value& root, const Value& wanted) {
    const auto place = [](const Value& value) { return std::pair(value.line, value.column); };
    std::string pointer;
    const Value* at = &root;
    while (at != &wanted) {
        // Children stand in the file's order: the wanted value is, or is inside, the last one that does not begin after it.
        const auto after = std::ranges::upper_bound(at->items, place(wanted), {}, place);
        if (after == at->items.begin()) break;
        const Value& child = *std::prev(after);
        pointer = pointer_step(std::move(pointer), at->is(JsonKind::Object) ? std::string(child.key)
                                                                       : std::to_string(&child - at->items.data()));
        at = &child;
    }
    return pointer;
}

const Value* value_at(const Value& root, std::string_view pointer) {
    const Value* at = &root;
    while (at != nullptr && !pointer.empty()) {
        const std::size_t end = std::min(pointer.find('/', 1), pointer.size());
        const std::string_view step = pointer.substr(0, end);
        const auto named = [&](const Value& item) {
            return pointer_step({}, at->is(JsonKind::Object) ? std::string(item.key) : std::to_string(&item - at->items.data())) == step;
        };
        const auto found = std::ranges::find_if(at->items, named);
        at = found == at->items.end() ? nullptr : &*found;
        pointer.remove_prefix(end);
    }
    return at;
}

std::string quoted(std::string_view text) {
    std::string shown = "\"";
    for (const char letter : text.substr(0, longest_shown)) {
        const auto byte = static_cast<unsigned char>(letter);
        if (byte < 0x20 || byte == 0x7f) shown += fmt::format("\\u{:04x}", byte);
        else shown += letter;
    }
    if (text.size() > longest_shown) {
        // Never cut inside a UTF-8 sequence.
        while ((static_cast<unsigned char>(shown.back()) & 0xC0U) == 0x80U) shown.pop_back();
        if (static_cast<unsigned char>(shown.back()) >= 0xC0U) shown.pop_back();
        shown += "…";
    }
    return shown + '"';
}

std::string compact(const Value& value) {
    std::string text;
    append(text, value);
    return text;
}

std::string describe(const Value& value) {
    switch (value.kind) {
        case JsonKind::Null: return "null";
        case JsonKind::Boolean: return value.boolean ? "true" : "false";
        case JsonKind::Number: return std::string(value.text);
        case JsonKind::String: return quoted(value.text);
        case JsonKind::Array: return value.items.empty() ? "an empty array" : fmt::format("an array of {}", value.items.size());
        case JsonKind::Object: return "an object";
    }
    return {};
}

}  // namespace wayfolio::input
