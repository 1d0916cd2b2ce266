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

/// A text in UTF-8 as the file spells it.
inline std::string text_string(const std::string& utf8) { return Handle::newUnicodeString(utf8).unparse(); }

/// What a stream holds, copied out.
inline std::string text_of(const std::shared_ptr<Buffer>& data) {
    return {reinterpret_cast<const char*>(data->getBuffer()), data->getSize()};
}

}  // namespace wayfolio::output
