#include "conformance/conformance.hpp"

#include "conformance/checked_file.hpp"
#include "unpack/open_file.hpp"

#include <qpdf/QPDFNumberTreeObjectHelper.hh>

namespace wayfolio::conformance {

Handle entry_of(QPDF& file, Handle tree, long long number) {
    Handle found = Handle::newNull();
    if (tree.isDictionary()) QPDFNumberTreeObjectHelper(tree, file).findObject(number, found);
    return found;
}

std::vector<Fault> faults_of(const std::string& pdf) {
    std::vector<Fault> faults;
    QPDF file;
    std::vector<PageContent> contents;
    unpack::StreamUnpacker unpacker(unpack::most_content(pdf.size()));
    std::set<QPDFObjGen> pages;
    const CheckedFile subject{pdf, file, contents, pages, unpacker, faults};
    try {
        unpack::open_file(file, "PDF", pdf);
        for (Handle page : file.getAllPages()) {
            pages.insert(page.getObjGen());
            contents.push_back(content_of(page, unpacker));
        }
        for (const auto check : {check_file, check_catalog, check_metadata, check_objects, check_fonts, check_contents, check_structure,
                                 check_annotations, check_attachments, check_navigation})
            check(subject);
        for (const QPDFExc& warning : file.getWarnings()) subject.fault("file-syntax", "file", warning.what());
    } catch (const unpack::Encrypted&) {
        subject.fault("file-encryption", "trailer", "encrypted");
    } catch (const std::runtime_error& error) {  // QPDFExc among them
        // Readers look for the header in the first 1024 bytes (ISO 32000-1, annex H.3, note 13).
        const bool begins_as_one = std::string_view(pdf).substr(0, 1024).find("%PDF-") != std::string_view::npos;
        subject.fault("file-syntax", "file", begins_as_one ? error.what() : "no %PDF- at its beginning: this is no PDF");
    }
    return faults;
}

}  // namespace wayfolio::conformance
