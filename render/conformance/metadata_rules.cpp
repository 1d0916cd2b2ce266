#include "conformance/checked_file.hpp"

#include <array>
#include <utility>

namespace wayfolio::conformance {

namespace {

/// The text between the tags of an element, without the container of an array; "" where it is not there.
std::string element(const std::string& packet, const std::string& name) {
    const std::string open = "<" + name + ">", close = "</" + name + ">";
    const std::size_t from = packet.find(open), to = packet.find(close);
    if (from == std::string::npos || to == std::string::npos || to < from) return {};
    std::string text = packet.substr(from + open.size(), to - from - open.size());
    if (const std::size_t item = text.find("<rdf:li"); item != std::string::npos) {
        const std::size_t start = text.find('>', item) + 1;
        text = text.substr(start, text.find("</rdf:li>") - start);
    }
    constexpr std::array<std::pair<std::string_view, char>, 5> entities{
        {{"&lt;", '<'}, {"&gt;", '>'}, {"&quot;", '"'}, {"&apos;", '\''}, {"&amp;", '&'}}};
    for (const auto& [entity, sign] : entities)
        for (std::size_t at = text.find(entity); at != std::string::npos; at = text.find(entity, at + 1))
            text.replace(at, entity.size(), 1, sign);
    return text;
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

void check_agreement(const CheckedFile& subject, const std::string& packet) {
    Handle info = subject.file.getTrailer().getKey("/Info");
    constexpr std::array<std::pair<const char*, const char*>, 8> pairs{{{"/Title", "dc:title"},
                                                                        {"/Author", "dc:creator"},
                                                                        {"/Subject", "dc:description"},
                                                                        {"/Keywords", "pdf:Keywords"},
                                                                        {"/Creator", "xmp:CreatorTool"},
                                                                        {"/Producer", "pdf:Producer"},
                                                                        {"/CreationDate", "xmp:CreateDate"},
                                                                        {"/ModDate", "xmp:ModifyDate"}}};
    for (const auto& [key, name] : pairs) {
        Handle value = info.isDictionary() ? info.getKey(key) : Handle::newNull();
        const std::string said = value.isString() ? value.getUTF8Value() : "";
        const std::string there = element(packet, name),
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
    const std::string packet = data_of(stream);
    if (element(packet, "pdfaid:part") != "3" || element(packet, "pdfaid:conformance") != "A")
        subject.fault("metadata-part", "XMP packet", "not part 3, conformance A");
    if (element(packet, "pdfuaid:part") != "1" || element(packet, "pdfaSchema:prefix") != "pdfuaid")
        subject.fault("metadata-ua", "XMP packet", "not part 1 of PDF/UA with its schema");
    if (element(packet, "dc:title").empty()) subject.fault("metadata-title", "XMP packet", "no title");
    check_agreement(subject, packet);
}

}  // namespace wayfolio::conformance
