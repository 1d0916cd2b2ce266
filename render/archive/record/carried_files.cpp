#include "archive/record/making.hpp"

#include "unpack/open_file.hpp"

#include <qpdf/QPDFEFStreamObjectHelper.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>
#include <qpdf/QPDFFileSpecObjectHelper.hh>

namespace wayfolio::archive {
namespace {

[[noreturn]] void reject_pdf(const std::string& name, const std::string& found, const std::string& hint = {}) {
    throw input::InputRejected({{name, {}, found, "a sound PDF that this program made", hint}});
}

}  // namespace

Files carried_files(const std::string& pdf, const std::string& name) {
    if (!pdf.starts_with("%PDF-")) reject_pdf(name, "no PDF", "name the PDF of a report or figure, or the folder of a record");
    try {
        QPDF file;
        unpack::open_file(file, name, pdf);
        Files files;
        unpack::StreamUnpacker unpacker(unpack::most_carried(pdf.size()));
        QPDFEmbeddedFileDocumentHelper embedded(file);
        for (const auto& [key, specification] : embedded.getEmbeddedFiles()) {
            files[key] = unpacker.unpacked(specification->getEmbeddedFileStream());
        }
        return files;
    } catch (const std::runtime_error& error) {  // QPDFExc among them
        reject_pdf(name, error.what());
    }
}

}  // namespace wayfolio::archive
