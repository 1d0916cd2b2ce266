#pragma once
#include <string>
#include <string_view>
#include <vector>

/// XML as far as an XMP packet has it: Namespaces in XML 1.0 without document types. Private to this room.
namespace wayfolio::conformance {

/// An expanded name: its namespace by address.
struct XmlName {
    std::string space, local;
    bool operator==(const XmlName&) const = default;
};

struct XmlAttribute {
    XmlName name;
    std::string prefix, value;
};

struct XmlElement {
    XmlName name;
    std::string prefix;
    std::vector<XmlAttribute> attributes;
    std::string text;  ///< its own, without that of its kids
    std::vector<XmlElement> kids;

    /// The first kid of that name, or nullptr.
    [[nodiscard]] const XmlElement* kid(const XmlName& called) const;
};

/// The root element.
/// @throws std::runtime_error with the place and what is wrong, where the text is not well-formed
XmlElement xml_root(const std::string& text);

}  // namespace wayfolio::conformance
