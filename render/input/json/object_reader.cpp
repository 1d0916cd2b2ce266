#include "input/json/object_reader.hpp"

#include "input/encoding.hpp"
#include "input/json/nearest.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fmt/format.h>

namespace wayfolio::input {
namespace {

/// The number if it is whole and not negative. The literal is asked first: a double cannot hold every 64-bit seed.
std::optional<std::uint64_t> whole_number(const Value& value) {
    std::uint64_t number = 0;
    const char* const end = value.text.data() + value.text.size();
    const auto [read_to, failure] = std::from_chars(value.text.data(), end, number);
    if (failure == std::errc() && read_to == end) return number;
    constexpr double exact = 9007199254740992.0;  // 2^53: 1.0 and 2e3 are whole numbers too, up to here
    if (value.number < 0 || value.number > exact || value.number != std::floor(value.number)) return std::nullopt;
    return static_cast<std::uint64_t>(value.number);
}

}  // namespace

std::optional<TextFault> text_fault(std::string_view text) {
    constexpr std::size_t longest = 32'767;
    if (const auto code = first_private_use(text))
        return TextFault{fmt::format("a text with the character U+{:04X}", *code), "a text without characters of private use",
                         "it means something else in every font; write the word for it"};
    if (const std::size_t size = utf16_size(text); size > longest)
        return TextFault{fmt::format("a text of {} bytes in UTF-16", size), fmt::format("at most {} bytes in UTF-16", longest),
                         "a PDF for archives holds no longer text; divide it"};
    return std::nullopt;
}

bool is_passed_over(std::string_view key) { return key.starts_with("x-") || key == "internal"; }

void check_internal(const Value& value, Faults& faults) {
    ObjectReader reader(value, faults, "an object with remarks and keys that begin with \"x-\"");
    reader.texts("remarks");
    reader.finish();
}

ObjectReader::ObjectReader(const Value& value, Faults& faults, std::string_view expected) : value_(value), faults_(faults) {
    expect(value, JsonKind::Object, expected);
}

bool ObjectReader::expect(const Value& member, JsonKind kind, std::string_view expected) {
    if (member.is(kind)) return true;
    faults_.add_wrong(member, std::string(expected), member.is(JsonKind::Null) ? "omit the key if the value is not known" : "");
    return false;
}

const Value* ObjectReader::find(std::string_view key) {
    if (std::ranges::find(known_, key) == known_.end()) known_.push_back(key);
    return value_.member(key);
}

const Value* ObjectReader::require(std::string_view key, std::string_view expected) {
    const Value* const member = find(key);
    if (member == nullptr && is_object()) faults_.add_missing(value_, key, std::string(expected));
    return member;
}

std::string ObjectReader::text(std::string_view key) {
    const Value* const member = find(key);
    if (member == nullptr || !expect(*member, JsonKind::String, "a text")) return {};
    return text_of(*member);
}

/// The text, or a fault and nothing.
std::string ObjectReader::text_of(const Value& member) {
    auto fault = text_fault(member.text);
    if (!fault) return std::string(member.text);
    faults_.add(member, std::move(fault->found), std::move(fault->expected), std::move(fault->hint));
    return {};
}

std::string ObjectReader::required_text(std::string_view key, std::string_view expected) {
    const Value* const member = require(key, expected);
    if (member == nullptr || !expect(*member, JsonKind::String, expected)) return {};
    if (member->text.empty()) faults_.add_wrong(*member, std::string(expected));
    return text_of(*member);
}

std::vector<std::string> ObjectReader::texts(std::string_view key, std::size_t most) {
    std::vector<std::string> result;
    for (const Value& item : array(key, "an array of texts", most))
        if (expect(item, JsonKind::String, "a text")) result.push_back(text_of(item));
    return result;
}

std::optional<double> ObjectReader::number_of(const Value& member, const NumberRule& rule) {
    if (!expect(member, JsonKind::Number, rule.expected) || member.refused) return std::nullopt;
    if (rule.holds(member.number)) return member.number;
    faults_.add_wrong(member, std::string(rule.expected), std::string(rule.hint));
    return std::nullopt;
}

std::optional<double> ObjectReader::number(std::string_view key, const NumberRule& rule) {
    const Value* const member = find(key);
    return member == nullptr ? std::nullopt : number_of(*member, rule);
}

std::optional<double> ObjectReader::required_number(std::string_view key, const NumberRule& rule) {
    const Value* const member = require(key, rule.expected);
    return member == nullptr ? std::nullopt : number_of(*member, rule);
}

std::optional<bool> ObjectReader::flag(std::string_view key) {
    const Value* const member = find(key);
    if (member == nullptr || !expect(*member, JsonKind::Boolean, "true or false")) return std::nullopt;
    return member->boolean;
}

std::optional<std::uint64_t> ObjectReader::whole(std::string_view key, std::uint64_t least, std::uint64_t most) {
    const Value* const member = find(key);
    const std::string expected = fmt::format("a whole number from {} to {}", least, most);
    if (member == nullptr || !expect(*member, JsonKind::Number, expected) || member->refused) return std::nullopt;
    const auto number = whole_number(*member);
    if (number && *number >= least && *number <= most) return number;
    faults_.add_wrong(*member, expected);
    return std::nullopt;
}

std::span<const Value> ObjectReader::array(std::string_view key, std::string_view expected, std::size_t most) {
    const Value* const member = find(key);
    if (member == nullptr || !expect(*member, JsonKind::Array, expected)) return {};
    if (member->items.size() <= most) return member->items;
    faults_.add(*member, describe(*member), fmt::format("at most {}", most));
    return {};
}

std::optional<std::size_t> ObjectReader::place_of_word(const Value& member, std::string_view what,
                                                       std::span<const std::string_view> spellings) {
    const std::string expected = fmt::format("{}: {}", what, listed(spellings));
    if (!expect(member, JsonKind::String, expected)) return std::nullopt;
    const auto found = std::ranges::find(spellings, member.text);
    if (found != spellings.end()) return static_cast<std::size_t>(found - spellings.begin());
    faults_.add_wrong(member, expected, nearest_hint(member.text, spellings));
    return std::nullopt;
}

void ObjectReader::finish() {
    if (!is_object()) return;
    for (const Value& member : value_.items) {
        if (member.key == "internal") check_internal(member, faults_);
        if (is_passed_over(member.key) || std::ranges::find(known_, member.key) != known_.end()) continue;
        std::string hint = nearest_hint(member.key, known_);
        if (hint.empty()) hint = "keys of your own begin with \"x-\"";
        faults_.add_key(member, "one of: " + listed(known_), std::move(hint));
    }
}

}  // namespace wayfolio::input
