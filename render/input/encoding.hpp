#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

/// How text is written down: UTF-8, base64, XML.
namespace wayfolio::input {

/// Place of the first byte that is not well-formed UTF-8 (RFC 3629: no overlong forms, no surrogates), or npos.
std::size_t first_invalid_utf8(std::string_view bytes);

/// Appends one code point as UTF-8.
void append_utf8(std::string& text, std::uint32_t code_point);

/// The first character that shows nothing but changes how text is shown, or commands a terminal: controls but tab and line ends, and the
/// marks that turn the direction of writing. The text is well-formed UTF-8.
std::optional<std::uint32_t> first_unprintable(std::string_view text);

/// Whether the text holds quotation marks as word processors write them. U+2019 is none here: it is an apostrophe, too.
bool has_typographic_quote(std::string_view text);

/// A name or text from outside on one line of a terminal: a line end becomes "\\n", every other character that first_unprintable() finds,
/// tabs and bytes that are no UTF-8 become "\\x1b". Whoever prints a name prints it through this, or it could forge lines of our own.
std::string printable(std::string_view text);

/// The first character of private use (U+E000 to U+F8FF, planes 15 and 16). The text is well-formed UTF-8.
std::optional<std::uint32_t> first_private_use(std::string_view text);

/// How many bytes the text takes in UTF-16 with its byte-order mark. The text is well-formed UTF-8.
std::size_t utf16_size(std::string_view text);

/// Whether the bytes look like UTF-16: a byte-order mark of it, or a NUL beside the first letter.
bool looks_like_utf16(std::string_view bytes);

inline constexpr std::string_view utf8_byte_order_mark = "\xEF\xBB\xBF";

/// The bytes that base64 text stands for (RFC 4648 clause 4). The text must be base64 without white space: the readers see to that.
std::string decoded_base64(const std::string& text);
/// Bytes as base64 text (RFC 4648 clause 4) on one line.
std::string base64(std::string_view bytes);

/// UTF-8 text made safe for XML content and double-quoted attributes; characters that XML 1.0 forbids become spaces.
std::string xml_text(std::string_view text);
/// The same for content only, where quotation marks may stand.
std::string xml_content(std::string_view text);

}  // namespace wayfolio::input
