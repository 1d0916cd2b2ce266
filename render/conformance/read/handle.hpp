#pragma once
// libqpdf 11 asks its users to say that they have left its old pointer type behind.
#ifndef POINTERHOLDER_TRANSITION
#define POINTERHOLDER_TRANSITION 4
#endif
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>

#include <string>

/// What reads the parts of a file that the rules are about. Private to this room.
namespace wayfolio::conformance {

using Handle = QPDFObjectHandle;

/// The entry of a number tree, or null.
Handle entry_of(QPDF& file, Handle tree, long long number);

}  // namespace wayfolio::conformance
