#include "certificate/xml_writer.hpp"

#include "input/encoding.hpp"

namespace wayfolio::certificate {

std::string_view trimmed(std::string_view words) {
    constexpr std::string_view white = " \t\r\n";
    const std::size_t first = words.find_first_not_of(white);
    if (first == std::string_view::npos) return {};
    return words.substr(first, words.find_last_not_of(white) - first + 1);
}

void XmlWriter::begin(std::string_view name, const Attributes& attributes) {
    indent();
    text_.append("<").append(name);
    for (const auto& [key, value] : attributes) text_.append(" ").append(key).append("=\"").append(input::xml_text(value)).append("\"");
    text_ += '>';
}

XmlWriter::Element XmlWriter::open(std::string_view name, const Attributes& attributes) {
    begin(name, attributes);
    text_ += '\n';
    open_.emplace_back(name);
    return Element(*this);
}

void XmlWriter::close() {
    const std::string name = std::move(open_.back());
    open_.pop_back();
    indent();
    text_.append("</").append(name).append(">\n");
}

void XmlWriter::put(std::string_view name, std::string_view words, const Attributes& attributes) {
    begin(name, attributes);
    text_.append(trimmed(input::xml_text(words))).append("</").append(name).append(">\n");
}

void XmlWriter::comment(std::string_view words) {
    std::string safe = input::xml_text(words);
    // XML 1.0, 2.5: no two hyphens in a row; the blank before the end keeps the last one apart.
    for (std::size_t at = 0; (at = safe.find("--", at)) != std::string::npos; ++at) safe.insert(at + 1, " ");
    indent();
    text_.append("<!-- ").append(safe).append(" -->\n");
}

}  // namespace wayfolio::certificate
