#include "conformance/checked_file.hpp"
#include "conformance/read/xml.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>
#include <utility>
#include <vector>

namespace wayfolio::conformance {

namespace {

const std::string rdf = "http://www.w3.org/1999/02/22-rdf-syntax-ns#", dublin_core = "http://purl.org/dc/elements/1.1/",
                  xmp_basic = "http://ns.adobe.com/xap/1.0/", adobe_pdf = "http://ns.adobe.com/pdf/1.3/",
                  pdfa_id = "http://www.aiim.org/pdfa/ns/id/", pdfua_id = "http://www.aiim.org/pdfua/ns/id/",
                  pdfa_extension = "http://www.aiim.org/pdfa/ns/extension/", pdfa_schema = "http://www.aiim.org/pdfa/ns/schema#",
                  pdfa_property = "http://www.aiim.org/pdfa/ns/property#";

/// A property of the packet: its whole element, or the text of an attribute.
struct Property {
    XmlName name;
    XmlElement element;
};

/// The first item of an array (XMP specification, 7.7), else the property's own text.
std::string value_of(const XmlElement& property) {
    for (const char* array : {"Alt", "Seq", "Bag"})
        if (const XmlElement* items = property.kid({rdf, array}))
            if (const XmlElement* item = items->kid({rdf, "li"})) return item->text;
    return property.text;
}

/// The elements of an array, whose items stand for structures.
std::vector<XmlElement> items_of(const XmlElement* property) {
    std::vector<XmlElement> items;
    if (property == nullptr) return items;
    for (const XmlElement& array : property->kids)
        for (const XmlElement& item : array.kids)
            if (item.name == XmlName{rdf, "li"}) {
                const XmlElement* inner = item.kid({rdf, "Description"});  // the longer way to write parseType="Resource"
                items.push_back(inner == nullptr ? item : *inner);
            }
    return items;
}

struct Packet {
    std::vector<Property> properties;

    [[nodiscard]] const XmlElement* find(const XmlName& name) const {
        const auto found = std::ranges::find(properties, name, &Property::name);
        return found == properties.end() ? nullptr : &found->element;
    }
    [[nodiscard]] std::string value(const XmlName& name) const {
        const XmlElement* found = find(name);
        return found == nullptr ? "" : value_of(*found);
    }
};

Packet packet_of(const XmlElement& root) {
    const XmlName top{rdf, "RDF"};
    const XmlElement* graph = root.name == top ? &root : root.kid(top);
    if (graph == nullptr) throw std::runtime_error("no rdf:RDF");
    Packet packet;
    for (const XmlElement& description : graph->kids) {
        for (const XmlAttribute& attribute : description.attributes)
            if (attribute.name.space != rdf && attribute.prefix != "xml")
                packet.properties.push_back({attribute.name, {attribute.name, attribute.prefix, {}, attribute.value, {}}});
        for (const XmlElement& kid : description.kids) packet.properties.push_back({kid.name, kid});
    }
    return packet;
}

struct KnownSchema {
    std::string space;
    std::vector<std::string_view> properties;  ///< empty: all of that space, which no rule here asks about
};

/// The schemas that ISO 19005-3, 6.6.2.3.1 knows without description, and what the first of them define (XMP specification of 2005)
/// [from memory].
const std::vector<KnownSchema>& known_schemas() {
    static const std::vector<KnownSchema> known{
        {dublin_core,
         {"contributor", "coverage", "creator", "date", "description", "format", "identifier", "language", "publisher", "relation",
          "rights", "source", "subject", "title", "type"}},
        {xmp_basic,
         {"Advisory", "BaseURL", "CreateDate", "CreatorTool", "Identifier", "Label", "MetadataDate", "ModifyDate", "Nickname", "Rating",
          "Thumbnails"}},
        {adobe_pdf, {"Keywords", "PDFVersion", "Producer", "Trapped"}},
        {pdfa_id, {"part", "amd", "conformance", "corr", "rev"}},
        {pdfa_extension, {"schemas"}},
        {"http://ns.adobe.com/xap/1.0/rights/", {}},
        {"http://ns.adobe.com/xap/1.0/mm/", {}},
        {"http://ns.adobe.com/xap/1.0/bj/", {}},
        {"http://ns.adobe.com/xap/1.0/t/pg/", {}},
        {"http://ns.adobe.com/xmp/1.0/DynamicMedia/", {}},
        {"http://ns.adobe.com/photoshop/1.0/", {}},
        {"http://ns.adobe.com/camera-raw-settings/1.0/", {}},
        {"http://ns.adobe.com/tiff/1.0/", {}},
        {"http://ns.adobe.com/exif/1.0/", {}},
        {"http://ns.adobe.com/exif/1.0/aux/", {}}};
    return known;
}

/// A schema that the packet itself describes.
struct Described {
    std::string space, prefix;
    std::vector<std::string> properties;
};

std::string part_of(const XmlElement& structure, const XmlName& name) {
    const XmlElement* part = structure.kid(name);
    return part == nullptr ? "" : part->text;
}

std::vector<Described> described_in(const Packet& packet) {
    std::vector<Described> all;
    for (const XmlElement& schema : items_of(packet.find({pdfa_extension, "schemas"}))) {
        Described described{part_of(schema, {pdfa_schema, "namespaceURI"}), part_of(schema, {pdfa_schema, "prefix"}), {}};
        for (const XmlElement& property : items_of(schema.kid({pdfa_schema, "property"})))
            described.properties.push_back(part_of(property, {pdfa_property, "name"}));
        all.push_back(std::move(described));
    }
    return all;
}

bool is_described(const Property& property, const std::vector<Described>& described) {
    const auto known = std::ranges::find(known_schemas(), property.name.space, &KnownSchema::space);
    if (known != known_schemas().end())
        return known->properties.empty() || std::ranges::find(known->properties, property.name.local) != known->properties.end();
    return std::ranges::any_of(described, [&](const Described& schema) {
        return schema.space == property.name.space && std::ranges::find(schema.properties, property.name.local) != schema.properties.end();
    });
}

void check_schemas(const CheckedFile& subject, const Packet& packet) {
    const std::vector<Described> described = described_in(packet);
    for (const Property& property : packet.properties)
        if (!is_described(property, described))
            subject.fault("metadata-schemas", "XMP packet",
                          property.element.prefix + ":" + property.name.local + " is of no schema that is known or described");
    const auto is_ua = [](const Described& schema) { return schema.space == pdfua_id && schema.prefix == "pdfuaid"; };
    if (packet.value({pdfua_id, "part"}) != "1" || std::ranges::none_of(described, is_ua))
        subject.fault("metadata-ua", "XMP packet", "not part 1 of PDF/UA with its schema");
}

/// "D:20260302102030+01'00'" as "2026-03-02T10:20:30+01:00" (ISO 32000-1, 7.9.4).
std::string iso_time(const std::string& date) {
    if (!date.starts_with("D:") || date.size() < 16) return date;
    const auto part = [&](std::size_t at, std::size_t length) { return date.substr(at, length); };
    std::string time = part(2, 4) + "-" + part(6, 2) + "-" + part(8, 2) + "T" + part(10, 2) + ":" + part(12, 2) + ":" + part(14, 2);
    if (date.size() < 22) return time + "Z";
    const std::string zone = part(16, 3) + ":" + part(20, 2);
    return time + (zone == "+00:00" ? "Z" : zone);
}

void check_agreement(const CheckedFile& subject, const Packet& packet) {
    Handle info = subject.file.getTrailer().getKey("/Info");
    const std::array<std::pair<const char*, XmlName>, 8> pairs{{{"/Title", {dublin_core, "title"}},
                                                                {"/Author", {dublin_core, "creator"}},
                                                                {"/Subject", {dublin_core, "description"}},
                                                                {"/Keywords", {adobe_pdf, "Keywords"}},
                                                                {"/Creator", {xmp_basic, "CreatorTool"}},
                                                                {"/Producer", {adobe_pdf, "Producer"}},
                                                                {"/CreationDate", {xmp_basic, "CreateDate"}},
                                                                {"/ModDate", {xmp_basic, "ModifyDate"}}}};
    for (const auto& [key, name] : pairs) {
        Handle value = info.isDictionary() ? info.getKey(key) : Handle::newNull();
        const std::string said = value.isString() ? value.getUTF8Value() : "";
        const std::string there = packet.value(name),
                          expected = std::string(key).ends_with("Date") && !said.empty() ? iso_time(said) : said;
        if (expected != there) subject.fault("metadata-info", key, "\"" + said + "\", but the packet says \"" + there + "\"");
    }
}

}  // namespace

void check_metadata(const CheckedFile& subject) {
    Handle stream = subject.root().getKey("/Metadata");
    if (!stream.isStream() || !stream.getDict().getKey("/Subtype").isNameAndEquals("/XML"))
        return subject.fault("metadata", "catalog", "no XMP packet");
    if (stream.getDict().hasKey("/Filter")) subject.fault("metadata", "XMP packet", "filtered");
    Packet packet;
    try {
        packet = packet_of(xml_root(subject.unpacker.unpacked(stream)));
    } catch (const std::runtime_error& error) {
        return subject.fault("metadata-xml", "XMP packet", error.what());
    }
    if (packet.value({pdfa_id, "part"}) != "3" || packet.value({pdfa_id, "conformance"}) != "A")
        subject.fault("metadata-part", "XMP packet", "not part 3, conformance A");
    if (packet.value({dublin_core, "title"}).empty()) subject.fault("metadata-title", "XMP packet", "no title");
    check_schemas(subject, packet);
    check_agreement(subject, packet);
}

}  // namespace wayfolio::conformance
