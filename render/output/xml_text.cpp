#include "output/xml_text.hpp"

namespace wayfolio::output {

std::string xml_text(std::string_view text) {
    std::string safe;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '&')
            safe += "&amp;";
        else if (c == '<')
            safe += "&lt;";
        else if (c == '>')
            safe += "&gt;";
        else if (c == '"')
            safe += "&quot;";
        else if (byte < 0x20 && c != '\n' && c != '\t')
            safe += ' ';
        else
            safe += c;
    }
    return safe;
}

}  // namespace wayfolio::output
