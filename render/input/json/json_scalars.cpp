#include "input/json/json_parser.hpp"
#include "input/encoding.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <fmt/format.h>
#include <utility>

namespace wayfolio::input {
namespace {

bool is_digit(char letter) { return letter >= '0' && letter <= '9'; }

/// End of the longest number of RFC 8259 grammar at `at`, or nullptr.
const char* number_end(const char* at, const char* end) {
    const auto digits = [&] {
        const char* const begin = at;
        while (at != end && is_digit(*at)) ++at;
        return at != begin;
    };
    if (at != end && *at == '-') ++at;
    if (at != end && *at == '0') ++at;
    else if (!digits()) return nullptr;
    if (at != end && *at == '.') {
        ++at;
        if (!digits()) return nullptr;
    }
    if (at != end && (*at == 'e' || *at == 'E')) {
        ++at;
        if (at != end && (*at == '+' || *at == '-')) ++at;
        if (!digits()) return nullptr;
    }
    return at;
}

constexpr std::ptrdiff_t most_letters = 15;  // of a plain number: digits and their point
constexpr std::array<double, most_letters> powers{1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14};

/// Nearly every number: digits, perhaps a point and digits, so few that they and the power of ten are held exactly by a double and their
/// quotient is rounded once [Clinger 1990], as std::from_chars does with any. @returns its end; nullptr for any other
const char* plain_number(const char* at, const char* end, double& number) {
    const bool negative = at != end && *at == '-';
    if (negative) ++at;
    std::int64_t digits = 0;
    const char *const first = at, *const stop = end - at > most_letters ? at + most_letters + 1 : end;
    for (; at != stop && is_digit(*at); ++at) digits = digits * 10 + (*at - '0');
    if (at == first || (*first == '0' && at - first > 1)) return nullptr;
    std::ptrdiff_t decimals = 0;
    if (at != stop && *at == '.') {
        const char* const after_point = ++at;
        for (; at != stop && is_digit(*at); ++at) digits = digits * 10 + (*at - '0');
        decimals = at - after_point;
        if (decimals == 0) return nullptr;
    }
    if (at == stop) return nullptr;
    number = static_cast<double>(negative ? -digits : digits) / powers[static_cast<std::size_t>(decimals)];
    if (digits == 0 && negative) number = -0.0;
    return at;
}

bool may_follow_number(char letter) {
    return letter == ',' || letter == ']' || letter == '}' || letter == ' ' || letter == '\t' || letter == '\r' || letter == '\n';
}

}  // namespace

void JsonParser::number(Value& into) {
    const char* const begin = at_;
    if (const char* const end = plain_number(begin, end_, into.number); end != nullptr && end != end_ && may_follow_number(*end)) {
        into.kind = JsonKind::Number;
        into.text = {begin, static_cast<std::size_t>(end - begin)};
        at_ = end;
        return;
    }
    const bool begins = !at_end() && (*at_ == '-' || is_digit(*at_));
    const char* const end = begins ? number_end(begin, end_) : nullptr;
    if (end == nullptr || (end != end_ && !may_follow_number(*end) && *end != '\0')) {
        const bool not_finite = letter() == 'N' || letter() == 'I' || (end_ - at_ > 1 && *at_ == '-' && at_[1] == 'I');
        const std::string hint = not_finite ? "JSON has no NaN or infinity; write null for a missing reading"
                                 : begins || letter() == '+' || letter() == '.'
                                     ? "write numbers as -12.5 or 1e-3: decimal point, no plus sign, no leading zeros"
                                     : "";
        unexpected("a value", hint);
    }
    into.kind = JsonKind::Number;
    into.text = {begin, static_cast<std::size_t>(end - begin)};
    const auto [read_to, failure] = std::from_chars(begin, end, into.number);
    at_ = end;
    const auto refuse = [&](std::string found, std::string expected, std::string hint) {
        note(into, std::move(found), std::move(expected), std::move(hint));
        into.refused = true;
    };
    if (failure == std::errc::result_out_of_range)
        refuse(quoted(into.text), "a number that a double can hold", "");
    else if (std::abs(into.number) > JsonLimits::number_size)
        refuse(quoted(into.text), "a number of at most 1e20 in size", "no measured value is larger; check the unit");
    else if (std::abs(into.number) < JsonLimits::least_size && into.number != 0)
        refuse(quoted(into.text), "0, or a number of at least 1e-30 in size", "no measured value is smaller; write 0");
    else if (into.text.size() > JsonLimits::number_letters)
        refuse(fmt::format("a number of {} characters", into.text.size()), fmt::format("at most {} characters", JsonLimits::number_letters),
               "a double holds 17 digits");
}

std::string_view JsonParser::string(std::string_view expected) {
    if (letter() != '"') unexpected(expected);
    const char* const begin = ++at_;
    while (at_ != end_ && *at_ != '"' && *at_ != '\\' && static_cast<unsigned char>(*at_) >= 0x20) ++at_;
    if (letter() == '\\') return string_with_escapes(begin);
    const std::string_view text(begin, static_cast<std::size_t>(at_ - begin));
    if (at_end()) stop(begin - 1, "a text without an end", "a closing \"", has_typographic_quote(text) ? quotes_hint : "");
    if (*at_ != '"')
        unexpected("a text without control characters",
                   has_typographic_quote(text) ? quotes_hint : "write a line break as \\n");
    ++at_;
    return last_text_ = text;
}

std::string_view JsonParser::string_with_escapes(const char* begin) {
    std::string& text = json_.decoded.emplace_back(begin, at_);
    while (at_ != end_ && *at_ != '"') {
        if (static_cast<unsigned char>(*at_) < 0x20)
            unexpected("a text without control characters", "write a line break as \\n");
        if (*at_ == '\\') escape(text);
        else text += *at_++;
    }
    if (at_end()) stop(begin - 1, "a text without an end", "a closing \"");
    ++at_;
    return last_text_ = text;
}

void JsonParser::escape(std::string& into) {
    const char* const begin = at_++;
    constexpr std::string_view names = "\"\\/bfnrt", meanings = "\"\\/\b\f\n\r\t";
    const char name = letter();
    const auto known = at_end() ? std::string_view::npos : names.find(name);
    if (known == std::string_view::npos && name != 'u')
        stop(begin, "an unknown escape", "\\\" \\\\ \\/ \\b \\f \\n \\r \\t or \\uXXXX", "write a backslash as \\\\");
    ++at_;
    if (known != std::string_view::npos) {
        into += meanings[known];
        return;
    }
    std::uint32_t code = four_hex_digits();
    if (code == 0) stop(begin, "the character U+0000", "a text without it");
    if (code >= 0xD800 && code < 0xDC00 && end_ - at_ >= 6 && at_[0] == '\\' && at_[1] == 'u') {
        at_ += 2;
        const std::uint32_t low = four_hex_digits();
        code = low >= 0xDC00 && low < 0xE000 ? 0x10000 + ((code - 0xD800) << 10U) + (low - 0xDC00) : 0xD800;
    }
    if (code >= 0xD800 && code < 0xE000) stop(begin, "half of a surrogate pair", "both halves, \\uD8xx\\uDCxx");
    append_utf8(into, code);
}

std::uint32_t JsonParser::four_hex_digits() {
    std::uint32_t code = 0;
    const char* const end = at_ + std::min<std::ptrdiff_t>(4, end_ - at_);
    const auto [read_to, failure] = std::from_chars(at_, end, code, 16);
    if (failure != std::errc() || read_to != at_ + 4) unexpected("four hexadecimal digits after \\u");
    at_ = read_to;
    return code;
}

}  // namespace wayfolio::input
