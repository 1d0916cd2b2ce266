#pragma once
#include "conformance/conformance.hpp"
#include "conformance/read/page_content.hpp"

/// Private to this room: the file that is checked, and the groups of rules.
namespace wayfolio::conformance {

struct CheckedFile {
    const std::string& bytes;
    QPDF& file;
    const std::vector<PageContent>& contents;  ///< one a page
    const std::set<QPDFObjGen>& pages;
    unpack::StreamUnpacker& unpacker;
    std::vector<Fault>& faults;

    void fault(std::string_view rule, std::string where, std::string what) const {
        faults.push_back({std::string(rule), std::move(where), std::move(what)});
    }
    [[nodiscard]] Handle root() const { return file.getRoot(); }
};

void check_file(const CheckedFile& subject);
void check_catalog(const CheckedFile& subject);
void check_metadata(const CheckedFile& subject);
void check_objects(const CheckedFile& subject);
void check_fonts(const CheckedFile& subject);
void check_contents(const CheckedFile& subject);
void check_structure(const CheckedFile& subject);
void check_annotations(const CheckedFile& subject);
void check_attachments(const CheckedFile& subject);
void check_navigation(const CheckedFile& subject);

/// Whether a destination (ISO 32000-1, 12.3.2) names a page of the file.
bool leads_to_page(const CheckedFile& subject, Handle destination);
/// What a named destination stands for, or null.
Handle named_destination(const CheckedFile& subject, Handle name);

}  // namespace wayfolio::conformance
