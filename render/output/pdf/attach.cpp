#include "output/pdf/attach.hpp"

#include "output/pdf/dates.hpp"
#include "output/pdf/qpdf.hpp"

namespace wayfolio::output {

namespace {

const char* relationship_name(Relationship relationship) {
    switch (relationship) {
        case Relationship::Source:
            return "/Source";
        case Relationship::Supplement:
            return "/Supplement";
        case Relationship::Data:
            return "/Data";
    }
    return "/Unspecified";
}

}  // namespace

void attach(QPDF& file, const std::vector<Attachment>& attachments, const std::vector<std::string>& packed, const std::string& modified) {
    if (attachments.empty()) return;
    QPDFEmbeddedFileDocumentHelper embedded(file);
    Handle associated = Handle::newArray();
    for (std::size_t i = 0; i < attachments.size(); ++i) {
        const Attachment& attachment = attachments[i];
        QPDFEFStreamObjectHelper stream = QPDFEFStreamObjectHelper::createEFStream(file, attachment.bytes);
        stream.getObjectHandle().replaceStreamData(packed.at(i), Handle::newName("/FlateDecode"), Handle::newNull());
        stream.setSubtype(attachment.mime).setModDate(pdf_date(modified)).setCreationDate(pdf_date(modified));
        QPDFFileSpecObjectHelper specification = QPDFFileSpecObjectHelper::createFileSpec(file, attachment.name, stream);
        specification.setDescription(attachment.description);
        Handle object = specification.getObjectHandle();
        object.replaceKey("/AFRelationship", Handle::newName(relationship_name(attachment.relationship)));
        embedded.replaceEmbeddedFile(attachment.name, specification);
        associated.appendItem(object);
    }
    file.getRoot().replaceKey("/AF", associated);
}

}  // namespace wayfolio::output
