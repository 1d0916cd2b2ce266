#include "output/pdf/attach.hpp"

#include "output/pdf/information.hpp"
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

EmbeddedFiles embedded(const std::vector<Attachment>& attachments, const std::string& created) {
    EmbeddedFiles files;
    if (attachments.empty()) return files;
    const std::string modified = pdf_date(whole_time(created));
    for (const Attachment& one : attachments)
        files.push_back(std::make_shared<const EmbeddedFile>(
            EmbeddedFile{one.name, one.description, one.relationship, file_entries(one, modified), packed(one.bytes, Effort::More)}));
    return files;
}

std::string attach(Objects& objects, const EmbeddedFiles& files) {
    if (files.empty()) return "";
    std::string associated;
    std::map<std::string, std::string> named;  // in the order that a name tree wants (ISO 32000-1 7.9.6)
    for (const auto& file : files) {
        const std::string stream = reference(objects.add_stream(file->entries, {file->packed, /*pack=*/false}));
        const std::string name = text_string(file->name);
        const std::string specification = reference(
            objects.add(fmt::format("<</Type /Filespec /F {0} /UF {0} /Desc {1} /EF <</F {2} /UF {2}>> /AFRelationship {3}>>", name,
                                    text_string(file->description), stream, relationship_name(file->relationship))));
        associated += " " + specification;
        named[file->name] = name + " " + specification;
    }
    std::string names;
    for (const auto& [name, entry] : named) names += " " + entry;
    return fmt::format(" /AF [{}] /Names <</EmbeddedFiles <</Names [{}]>>>>", associated, names);
}

}  // namespace wayfolio::output
