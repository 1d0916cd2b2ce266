#pragma once
#include "output/pdf/qpdf.hpp"

#include <qpdf/QPDFWriter.hh>

#include <string>

/// PDFs as somebody's editor would leave them.
namespace wayfolio::testing {

/// The PDF with its objects changed and written anew, as an editor would.
template <class Change>
std::string edited(const std::string& pdf, const Change& change) {
    QPDF file;
    file.processMemoryFile("pdf", pdf.data(), pdf.size());
    change(file);
    QPDFWriter writer(file);
    writer.setOutputMemory();
    writer.setDeterministicID(/*val=*/true);
    writer.write();
    return output::text_of(writer.getBufferSharedPointer());
}

/// The PDF with one carried file replaced, or taken out where `bytes` is empty.
inline std::string with_carried(const std::string& pdf, const std::string& name, const std::string& bytes) {
    return edited(pdf, [&](QPDF& file) {
        QPDFEmbeddedFileDocumentHelper embedded(file);
        if (bytes.empty()) embedded.removeEmbeddedFile(name);
        else
            embedded.replaceEmbeddedFile(
                name, QPDFFileSpecObjectHelper::createFileSpec(file, name, QPDFEFStreamObjectHelper::createEFStream(file, bytes)));
    });
}

}  // namespace wayfolio::testing
