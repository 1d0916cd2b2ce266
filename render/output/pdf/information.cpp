#include "output/pdf/information.hpp"

#include "input/encoding.hpp"
#include "output/pdf/qpdf.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <stdexcept>
#include <string_view>

namespace wayfolio::output {

namespace {

/// Takes the front of `rest` when it has the form: 0 stands for a digit, everything else for itself.
std::optional<std::string> take(std::string_view& rest, std::string_view form) {
    const auto fits = [](char c, char wanted) { return wanted == '0' ? c >= '0' && c <= '9' : c == wanted; };
    if (rest.size() < form.size() ||
        !std::equal(form.begin(), form.end(), rest.begin(), [&](char wanted, char c) { return fits(c, wanted); }))
        return std::nullopt;
    std::string taken(rest.substr(0, form.size()));
    rest.remove_prefix(form.size());
    return taken;
}

std::optional<std::string> take_zone(std::string_view& rest) {
    for (const char* form : {"Z", "+00:00", "-00:00"})
        if (auto zone = take(rest, form)) return zone;
    return std::nullopt;
}

std::string simple(const char* name, const std::string& value) {
    return value.empty() ? "" : fmt::format("   <{0}>{1}</{0}>\n", name, input::xml_text(value));
}

std::string in_default_language(const char* name, const std::string& value) {
    if (value.empty()) return "";
    return fmt::format("   <{0}><rdf:Alt><rdf:li xml:lang=\"x-default\">{1}</rdf:li></rdf:Alt></{0}>\n", name, input::xml_text(value));
}

std::string in_order(const char* name, const std::string& value) {
    return value.empty() ? "" : fmt::format("   <{0}><rdf:Seq><rdf:li>{1}</rdf:li></rdf:Seq></{0}>\n", name, input::xml_text(value));
}

/// PDF/A knows no pdfuaid: its schema has to be described in the packet itself (ISO 19005-3, 6.6.2.3.3).
constexpr const char* schema_of_pdfuaid = R"(   <pdfaExtension:schemas>
    <rdf:Bag>
     <rdf:li rdf:parseType="Resource">
      <pdfaSchema:schema>PDF/UA identification</pdfaSchema:schema>
      <pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
      <pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
      <pdfaSchema:property>
       <rdf:Seq>
        <rdf:li rdf:parseType="Resource">
         <pdfaProperty:name>part</pdfaProperty:name>
         <pdfaProperty:valueType>Integer</pdfaProperty:valueType>
         <pdfaProperty:category>internal</pdfaProperty:category>
         <pdfaProperty:description>The part of ISO 14289 that the file follows</pdfaProperty:description>
        </rdf:li>
       </rdf:Seq>
      </pdfaSchema:property>
     </rdf:li>
    </rdf:Bag>
   </pdfaExtension:schemas>
)";

constexpr const char* start = R"(<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
  <rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/"
    xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"
    xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/" xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#"
    xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
)";

}  // namespace

std::string whole_time(const std::string& date) {
    if (date.empty()) return "1970-01-01T00:00:00Z";
    std::string_view rest = date;
    const std::optional<std::string> day = take(rest, "0000-00-00");
    std::optional<std::string> minutes = "00:00", seconds, zone;
    if (take(rest, "T")) {
        minutes = take(rest, "00:00");
        seconds = take(rest, ":00");
        if (seconds && take(rest, ".0"))
            while (take(rest, "0")) {}
        zone = take_zone(rest);
    }
    if (!day || !minutes || !rest.empty()) throw std::logic_error("\"" + date + "\" is no ISO 8601 date");
    return fmt::format("{}T{}{}{}", *day, *minutes, seconds.value_or(":00"), zone.value_or("Z"));
}

std::string pdf_date(const std::string& whole_time) {
    constexpr std::size_t zone_at = 19;
    std::string time = whole_time.substr(0, zone_at);
    std::erase_if(time, [](char c) { return c < '0' || c > '9'; });
    const std::string zone = whole_time.substr(zone_at);
    return fmt::format("D:{}{}", time, zone == "Z" ? "+00'00'" : fmt::format("{}'{}'", zone.substr(0, 3), zone.substr(4)));
}

std::string information(const Metadata& metadata, const std::string& producer) {
    std::string words = "<<";
    const auto say = [&](const char* key, const std::string& value) {
        if (!value.empty()) words += fmt::format("/{} {} ", key, text_string(value));
    };
    const std::string date = pdf_date(whole_time(metadata.created));
    say("Producer", producer);
    say("Title", metadata.title);
    say("Author", metadata.author);
    say("Subject", metadata.subject);
    say("Keywords", metadata.keywords);
    say("Creator", metadata.creator);
    say("CreationDate", date);
    say("ModDate", date);
    return words + ">>";
}

std::string xmp(const Metadata& metadata, const std::string& producer) {
    const std::string time = whole_time(metadata.created);
    std::string packet =
        "<?xpacket begin=\"\ufeff\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n ";
    packet += start;
    packet += simple("pdfaid:part", "3") + simple("pdfaid:conformance", "A") + simple("pdfuaid:part", "1");
    packet += in_default_language("dc:title", metadata.title) + in_order("dc:creator", metadata.author) +
              in_default_language("dc:description", metadata.subject);
    packet += simple("dc:identifier", metadata.identifier) + simple("dc:source", metadata.source);
    packet += simple("pdf:Keywords", metadata.keywords) + simple("pdf:Producer", producer) +
              simple("xmp:CreatorTool", metadata.creator);
    packet += simple("xmp:CreateDate", time) + simple("xmp:ModifyDate", time);
    packet += schema_of_pdfuaid;
    return packet + "  </rdf:Description>\n </rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>";
}

}  // namespace wayfolio::output
