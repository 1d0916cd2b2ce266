#include "input/customer_copy.hpp"

#include "input/json/json.hpp"
#include "input/encoding.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace wayfolio::input {
namespace {

constexpr std::string_view mark = "x-reduced";

/// Turns places (line and column, from 1) into offsets of bytes.
class Offsets {
public:
    explicit Offsets(std::string_view text) {
        for (std::size_t at = 0; (at = text.find('\n', at)) != std::string_view::npos;) starts_.push_back(++at);
    }
    [[nodiscard]] std::size_t key(const Value& member) const { return starts_.at(member.key_line - 1) + member.key_column - 1; }
    [[nodiscard]] std::size_t value(const Value& value) const { return starts_.at(value.line - 1) + value.column - 1; }

private:
    std::vector<std::size_t> starts_{0};
};

std::size_t end_of_string(std::string_view text, std::size_t at) {
    for (++at; text[at] != '"'; ++at)
        if (text[at] == '\\') ++at;
    return at + 1;
}

/// One past the last byte of the value that begins at `at`; the text is known to be sound JSON.
std::size_t end_of_value(std::string_view text, std::size_t at) {
    if (text[at] == '"') return end_of_string(text, at);
    if (text[at] != '{' && text[at] != '[') return std::min(text.find_first_of(",]} \t\r\n", at), text.size());
    for (int depth = 0; at < text.size();) {
        if (text[at] == '"') {
            at = end_of_string(text, at);
            continue;
        }
        if (text[at] == '{' || text[at] == '[') ++depth;
        if (text[at] == '}' || text[at] == ']') --depth;
        ++at;
        if (depth == 0) return at;
    }
    return text.size();
}

struct Range {
    std::size_t from, to;
};

/// What goes with a member: up to the next one, or for the last one from the end of the value before it.
Range range_of(const Value& object, std::size_t place, std::string_view text, const Offsets& offsets) {
    const std::size_t from = offsets.key(object.items[place]);
    if (place + 1 < object.items.size()) return {from, offsets.key(object.items[place + 1])};
    const std::size_t to = end_of_value(text, offsets.value(object.items[place]));
    if (place == 0) return {from, to};
    return {end_of_value(text, offsets.value(object.items[place - 1])), to};
}

void find_internal(const Value& value, std::string_view text, const Offsets& offsets, std::vector<Range>& found) {
    for (std::size_t place = 0; place < value.items.size(); ++place) {
        const Value& item = value.items[place];
        if (value.is(JsonKind::Object) && item.key == "internal")
            found.push_back(range_of(value, place, text, offsets));
        else
            find_internal(item, text, offsets, found);
    }
}

std::string without(std::string_view text, const std::vector<Range>& ranges) {
    std::string kept;
    std::size_t at = 0;
    for (const Range& range : ranges) {
        kept.append(text, at, range.from - at);
        at = range.to;
    }
    return kept.append(text.substr(at));
}

}  // namespace

CustomerCopy customer_copy(std::string_view bytes) {
    // Most files have neither; a key may be spelt with escapes.
    const auto holds = [&](std::string_view word) { return bytes.find(word) != std::string_view::npos; };
    if (!holds("\\u") && !holds("internal") && !holds(mark)) return {std::string(bytes)};
    const std::string_view byte_order_mark = bytes.starts_with(utf8_byte_order_mark) ? utf8_byte_order_mark : "";
    const std::string_view text = bytes.substr(byte_order_mark.size());
    const Json json = read_json(text, "the document or layout");
    std::vector<Range> ranges;
    find_internal(json.root, text, Offsets(text), ranges);
    const bool marked = json.root.member(mark) != nullptr;
    if (ranges.empty()) return {std::string(bytes), 0, marked};
    std::string kept = without(text, ranges);
    if (!marked)
        kept.insert(kept.find('{') + 1, fmt::format("\"{}\": \"{} {} marked internal left out of this copy\",", mark, ranges.size(),
                                                    ranges.size() == 1 ? "part" : "parts"));
    return {std::string(byte_order_mark) + kept, ranges.size(), true};
}

}  // namespace wayfolio::input
