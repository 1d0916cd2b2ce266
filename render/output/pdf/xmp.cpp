#include "output/pdf/xmp.hpp"

#include "input/xml_text.hpp"
#include "output/pdf/dates.hpp"

#include <fmt/format.h>

namespace wayfolio::output {

namespace {

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
