#pragma once
#include "unpack/stream_unpacker.hpp"

namespace wayfolio::unpack {

/// A file that is encrypted and packs its objects: what they unpack to cannot be known before it is opened.
struct Encrypted : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// Opens a file that anybody may have made, without a word on the terminal. libqpdf unpacks cross-reference streams and object streams by
/// itself, without a bound, and reads objects that lie in each other as often as they are named; what that would take is found out before
/// it sees the file.
/// @param file a new one @param name for messages @param bytes outlive `file`
/// @throws TooMuch, Encrypted; QPDFExc where libqpdf cannot open it (all of them std::runtime_error)
void open_file(QPDF& file, const std::string& name, const std::string& bytes);

}  // namespace wayfolio::unpack
