#include "input/encoding.hpp"

namespace wayfolio::input {
namespace {

/// U+FFFE and U+FFFF are the only code points of well-formed UTF-8 above U+001F that XML 1.0, 2.2 forbids.
bool is_forbidden_triple(std::string_view bytes) { return bytes == "\xEF\xBF\xBE" || bytes == "\xEF\xBF\xBF"; }

enum class Quotes { Kept, Escaped };

std::string escaped(std::string_view text, Quotes quotes) {
    std::string safe;
    for (std::size_t at = 0; at < text.size(); ++at) {
        const char c = text[at];
        const auto byte = static_cast<unsigned char>(c);
        if (c == '&')
            safe += "&amp;";
        else if (c == '<')
            safe += "&lt;";
        else if (c == '>')
            safe += "&gt;";
        else if (c == '"' && quotes == Quotes::Escaped)
            safe += "&quot;";
        else if (byte < 0x20 && c != '\n' && c != '\t')
            safe += ' ';
        else if (is_forbidden_triple(text.substr(at, 3))) {
            safe += ' ';
            at += 2;
        } else
            safe += c;
    }
    return safe;
}

}  // namespace

std::string xml_text(std::string_view text) { return escaped(text, Quotes::Escaped); }
std::string xml_content(std::string_view text) { return escaped(text, Quotes::Kept); }

}  // namespace wayfolio::input
