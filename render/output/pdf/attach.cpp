#include "output/pdf/attach.hpp"

#include "output/pdf/qpdf.hpp"

#include <fmt/format.h>

#include <map>

namespace wayfolio::output {

namespace {

const char* relationship_name(Relationship relationship) {
    switch (relationship) {
        case Relationship::Source: return "/Source";
        case Relationship::Supplement: return "/Supplement";
        case Relationship::Data: return "/Data";
    }
    return "/Unspecified";
}

/// What an embedded file's stream says of itself: kind, dates, size and checksum.
std::string file_entries(const Attachment& attachment, const std::string& modified) {
    QPDF aside;
    aside.emptyPDF();
    QPDFEFStreamObjectHelper stream = QPDFEFStreamObjectHelper::createEFStream(aside, attachment.bytes);
    stream.setSubtype(attachment.mime).setModDate(modified).setCreationDate(modified);
    Handle dictionary = stream.getObjectHandle().getDict();
    return fmt::format("/Type /EmbeddedFile /Subtype {} /Params {} /Filter /FlateDecode ", dictionary.getKey("/Subtype").unparse(),
                       dictionary.getKey("/Params").unparse());
}

}  // namespace

std::string attach(Objects& objects, const std::vector<Attachment>& attachments, std::vector<std::string> packed,
                   const std::string& modified) {
    if (attachments.empty()) return "";
    std::string associated;
    std::map<std::string, std::string> named;  // in the order that a name tree wants (ISO 32000-1 7.9.6)
    for (std::size_t i = 0; i < attachments.size(); ++i) {
        const Attachment& attachment = attachments[i];
        const std::string stream =
            reference(objects.add_stream(file_entries(attachment, modified), {std::move(packed.at(i)), /*pack=*/false}));
        const std::string name = text_string(attachment.name);
        const std::string specification = reference(
            objects.add(fmt::format("<</Type /Filespec /F {0} /UF {0} /Desc {1} /EF <</F {2} /UF {2}>> /AFRelationship {3}>>", name,
                                    text_string(attachment.description), stream, relationship_name(attachment.relationship))));
        associated += " " + specification;
        named[attachment.name] = name + " " + specification;
    }
    std::string names;
    for (const auto& [name, entry] : named) names += " " + entry;
    return fmt::format(" /AF [{}] /Names <</EmbeddedFiles <</Names [{}]>>>>", associated, names);
}

}  // namespace wayfolio::output
