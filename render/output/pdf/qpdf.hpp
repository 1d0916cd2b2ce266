#pragma once
// libqpdf 11 asks its users to say that they have left its old pointer type behind.
#ifndef POINTERHOLDER_TRANSITION
#define POINTERHOLDER_TRANSITION 4
#endif
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFEFStreamObjectHelper.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>
#include <qpdf/QPDFFileSpecObjectHelper.hh>
#include <qpdf/QPDFObjectHandle.hh>

namespace wayfolio::output {

using Handle = QPDFObjectHandle;

/// A text in UTF-8 as the file spells it. What would be over 32 767 bytes there (ISO 19005-3, 6.1.13) ends with "…": texts of the document
/// that long are faults, but an alternative text may be put together from many.
inline std::string text_string(const std::string& utf8) {
    constexpr std::size_t most_units = (32'767 - 2) / 2;  // of UTF-16, behind the mark of byte order
    std::size_t units = 0, end = 0;
    for (std::size_t at = 0; at < utf8.size(); ++at) {
        const auto byte = static_cast<unsigned char>(utf8[at]);
        if ((byte & 0xC0) == 0x80) continue;  // goes on with the code point before
        if (units < most_units) end = at;
        units += byte >= 0xF0 ? 2 : 1;  // beyond U+FFFF: a pair
    }
    if (units <= most_units) return Handle::newUnicodeString(utf8).unparse();
    return Handle::newUnicodeString(utf8.substr(0, end) + "…").unparse();
}

/// What a stream holds, copied out.
inline std::string text_of(const std::shared_ptr<Buffer>& data) {
    return {reinterpret_cast<const char*>(data->getBuffer()), data->getSize()};
}

}  // namespace wayfolio::output
