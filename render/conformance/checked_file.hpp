#pragma once
#include "conformance/conformance.hpp"
// libqpdf 11 asks its users to say that they have left its old pointer type behind.
#ifndef POINTERHOLDER_TRANSITION
#define POINTERHOLDER_TRANSITION 4
#endif
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>

/// Private to this room: the file that is checked, and the groups of rules.
namespace wayfolio::conformance {

using Handle = QPDFObjectHandle;

struct CheckedFile {
    const std::string& bytes;
    QPDF& file;
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
void check_structure(const CheckedFile& subject);
void check_annotations(const CheckedFile& subject);
void check_attachments(const CheckedFile& subject);
void check_navigation(const CheckedFile& subject);

/// A stream's decoded bytes.
std::string data_of(Handle stream);

/// The entry of a number tree, or null.
Handle entry_of(QPDF& file, Handle tree, long long number);

/// Whether a destination (ISO 32000-1, 12.3.2) names a page of the file.
bool leads_to_page(QPDF& file, Handle destination);
/// What a named destination stands for, or null.
Handle named_destination(const CheckedFile& subject, Handle name);

}  // namespace wayfolio::conformance
