#include "input/encoding.hpp"

#include <algorithm>
#include <cstring>

namespace wayfolio::input {
namespace {

unsigned byte_at(std::string_view bytes, std::size_t place) { return static_cast<unsigned char>(bytes[place]); }

/// Length of the sequence that begins at `place`, 0 if it is not well-formed (RFC 3629, section 4).
std::size_t sequence_length(std::string_view bytes, std::size_t place) {
    const unsigned lead = byte_at(bytes, place);
    const std::size_t length = lead < 0x80 ? 1 : lead < 0xC2 ? 0 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : lead < 0xF5 ? 4 : 0;
    if (length == 0 || place + length > bytes.size()) return 0;
    for (std::size_t next = 1; next < length; ++next)
        if ((byte_at(bytes, place + next) & 0xC0U) != 0x80U) return 0;
    if (length < 3) return length;
    const unsigned second = byte_at(bytes, place + 1);
    const bool overlong = (lead == 0xE0 && second < 0xA0) || (lead == 0xF0 && second < 0x90);
    const bool surrogate = lead == 0xED && second > 0x9F;
    const bool too_large = lead == 0xF4 && second > 0x8F;
    return overlong || surrogate || too_large ? 0 : length;
}

}  // namespace

std::size_t first_invalid_utf8(std::string_view bytes) {
    std::size_t place = 0;
    while (place < bytes.size()) {
        // Eight plain ASCII bytes at once: result documents are nearly all ASCII.
        std::uint64_t eight = 0;
        while (place + sizeof eight <= bytes.size()) {
            std::memcpy(&eight, bytes.data() + place, sizeof eight);
            if ((eight & 0x8080808080808080U) != 0) break;
            place += sizeof eight;
        }
        if (place == bytes.size()) break;
        const std::size_t length = sequence_length(bytes, place);
        if (length == 0) return place;
        place += length;
    }
    return std::string_view::npos;
}

void append_utf8(std::string& text, std::uint32_t code_point) {
    const auto put = [&text](std::uint32_t byte) { text += static_cast<char>(static_cast<unsigned char>(byte)); };
    if (code_point < 0x80) {
        put(code_point);
        return;
    }
    const int following = code_point < 0x800 ? 1 : code_point < 0x10000 ? 2 : 3;
    constexpr std::uint32_t lead_marks[] = {0, 0xC0, 0xE0, 0xF0};
    put(lead_marks[following] | (code_point >> (6 * following)));
    for (int left = following - 1; left >= 0; --left) put(0x80U | ((code_point >> (6 * left)) & 0x3FU));
}

std::optional<std::uint32_t> first_unprintable(std::string_view text) {
    const auto byte = [&](std::size_t at) { return at < text.size() ? static_cast<unsigned char>(text[at]) : 0U; };
    for (std::size_t at = 0; at < text.size(); ++at) {
        const unsigned first = byte(at), second = byte(at + 1), third = byte(at + 2);
        if ((first < 0x20 && first != '\t' && first != '\n' && first != '\r') || first == 0x7F) return first;
        if (first == 0xC2 && second < 0xA0) return second;                                                        // U+0080 to U+009F
        const bool turns =
            second == 0x80 && (third == 0x8E || third == 0x8F || (third >= 0xAA && third <= 0xAE));  // U+200E, U+200F, U+202A to U+202E
        const bool isolates = second == 0x81 && third >= 0xA6 && third <= 0xA9;                                     // U+2066 to U+2069
        if (first == 0xE2 && (turns || isolates)) return 0x2000U + ((second & 0x3FU) << 6U) + (third & 0x3FU);
    }
    return std::nullopt;
}

bool has_typographic_quote(std::string_view text) {
    constexpr std::array<std::string_view, 7> marks{"\u201c", "\u201d", "\u201e", "\u201f", "\u2018", "\u00ab", "\u00bb"};
    return std::ranges::any_of(marks, [&](std::string_view mark) { return text.find(mark) != std::string_view::npos; });
}

std::string printable(std::string_view text) {
    std::string clean;
    const auto escape = [&](std::size_t at) {
        constexpr std::string_view digits = "0123456789abcdef";
        clean.append("\\x").append(1, digits[byte_at(text, at) >> 4U]).append(1, digits[byte_at(text, at) & 0xFU]);
    };
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = sequence_length(text, at);
        const std::string_view character = text.substr(at, std::max<std::size_t>(length, 1));
        if (character == "\n") clean += "\\n";
        else if (length > 0 && !first_unprintable(character) && character != "\t" && character != "\r") clean += character;
        else
            for (std::size_t i = 0; i < character.size(); ++i) escape(at + i);
        at += character.size();
    }
    return clean;
}

std::optional<std::uint32_t> first_private_use(std::string_view text) {
    for (std::size_t at = 0; at + 2 < text.size(); ++at) {
        const unsigned first = byte_at(text, at), second = byte_at(text, at + 1), third = byte_at(text, at + 2);
        const bool in_plane_0 = first == 0xEE || (first == 0xEF && second < 0xA4);        // U+E000 to U+F8FF
        const bool in_planes_15_and_16 = (first == 0xF3 && second >= 0xB0) || first == 0xF4;  // U+F0000 on
        if (in_plane_0) return (first & 0x0FU) << 12U | (second & 0x3FU) << 6U | (third & 0x3FU);
        if (in_planes_15_and_16)
            return (first & 0x07U) << 18U | (second & 0x3FU) << 12U | (third & 0x3FU) << 6U | (byte_at(text, at + 3) & 0x3FU);
    }
    return std::nullopt;
}

std::size_t utf16_size(std::string_view text) {
    std::size_t units = 1;  // the byte-order mark
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        units += (byte & 0xC0U) == 0x80U ? 0 : byte >= 0xF0 ? 2 : 1;
    }
    return 2 * units;
}

bool looks_like_utf16(std::string_view bytes) {
    if (bytes.size() < 2) return false;
    const unsigned first = byte_at(bytes, 0), second = byte_at(bytes, 1);
    const bool marked = (first == 0xFF && second == 0xFE) || (first == 0xFE && second == 0xFF);
    return marked || ((first == 0) != (second == 0));
}

}  // namespace wayfolio::input
