#include "conformance/read/xml.hpp"

#include <algorithm>
#include <expat.h>
#include <memory>
#include <new>
#include <stdexcept>
#include <tuple>
#include <utility>

namespace wayfolio::conformance {
namespace {

constexpr char between = '\n';  // between the parts of an expanded name: no space and no name holds one
constexpr std::size_t most_levels = 200;

/// "space local prefix", "space local" or "local", as the parser joins them.
std::pair<XmlName, std::string> expanded(std::string_view joined) {
    const std::size_t first = joined.find(between);
    if (first == std::string_view::npos) return {{"", std::string(joined)}, ""};
    const std::size_t second = std::min(joined.find(between, first + 1), joined.size());
    const std::string_view prefix = joined.substr(std::min(second + 1, joined.size()));
    return {{std::string(joined.substr(0, first)), std::string(joined.substr(first + 1, second - first - 1))}, std::string(prefix)};
}

/// Elements that are open, outermost first; the first holds the root as its kid.
struct Open {
    XML_Parser parser;
    std::vector<XmlElement> elements{XmlElement{}};
    std::string refused{};

    /// The parser may still end an empty element after this, but reads on no further.
    void refuse(const char* why) {
        refused = why;
        XML_StopParser(parser, XML_FALSE);
    }
};

void begin(void* data, const XML_Char* name, const XML_Char** attributes) {
    Open& open = *static_cast<Open*>(data);
    if (open.elements.size() > most_levels) return open.refuse("too many elements in each other");
    XmlElement& made = open.elements.emplace_back();
    std::tie(made.name, made.prefix) = expanded(name);
    for (; *attributes; attributes += 2) {
        auto [called, prefix] = expanded(attributes[0]);
        made.attributes.push_back({std::move(called), std::move(prefix), attributes[1]});
    }
}

void end(void* data, const XML_Char*) {
    auto& elements = static_cast<Open*>(data)->elements;
    XmlElement made = std::move(elements.back());
    elements.pop_back();
    elements.back().kids.push_back(std::move(made));
}

void letters(void* data, const XML_Char* text, int length) {
    static_cast<Open*>(data)->elements.back().text.append(text, static_cast<std::size_t>(length));
}

void document_type(void* data, const XML_Char*, const XML_Char*, const XML_Char*, int) {
    static_cast<Open*>(data)->refuse("a document type, which an XMP packet has not");
}

}  // namespace

const XmlElement* XmlElement::kid(const XmlName& called) const {
    const auto found = std::ranges::find(kids, called, &XmlElement::name);
    return found == kids.end() ? nullptr : &*found;
}

XmlElement xml_root(const std::string& text) {
    const std::unique_ptr<XML_ParserStruct, decltype(&XML_ParserFree)> parser(XML_ParserCreateNS("UTF-8", between), XML_ParserFree);
    if (!parser) throw std::bad_alloc();
    constexpr std::size_t most_bytes = 64'000'000;
    if (text.size() > most_bytes) throw std::runtime_error("more than 64 MB");
    Open open{.parser = parser.get()};
    XML_SetUserData(parser.get(), &open);
    XML_SetReturnNSTriplet(parser.get(), 1);
    XML_SetElementHandler(parser.get(), begin, end);
    XML_SetCharacterDataHandler(parser.get(), letters);
    XML_SetStartDoctypeDeclHandler(parser.get(), document_type);
    if (XML_Parse(parser.get(), text.data(), static_cast<int>(text.size()), XML_TRUE) != XML_STATUS_OK)
        throw std::runtime_error("byte " + std::to_string(XML_GetCurrentByteIndex(parser.get())) + ": " +
                                 (open.refused.empty() ? XML_ErrorString(XML_GetErrorCode(parser.get())) : open.refused));
    return std::move(open.elements.front().kids.front());
}

}  // namespace wayfolio::conformance
