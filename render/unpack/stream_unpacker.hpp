#pragma once
#include "unpack/object_syntax.hpp"
// libqpdf 11 asks its users to say that they have left its old pointer type behind.
#ifndef POINTERHOLDER_TRANSITION
#define POINTERHOLDER_TRANSITION 4
#endif
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>

#include <string>
#include <string_view>

/// Bounded reading of PDFs that anybody may have made. Knows no other room: what draws PDFs and what judges them share nothing but this.
namespace wayfolio::unpack {

using Handle = QPDFObjectHandle;

/// What the content of all pages may unpack to: what this program writes stays far below sixteen times the size of the file.
constexpr std::size_t most_content(std::size_t file_bytes) { return (std::size_t{4} << 20) + 16 * file_bytes; }
/// What the files that a PDF carries may unpack to: readings without scatter pack to a hundredth.
constexpr std::size_t most_carried(std::size_t file_bytes) { return (std::size_t{96} << 20) + 100 * file_bytes; }

/// Unpacks the streams of one file that anybody may have made: a few bytes can unpack to any number, and one stream can be named any
/// number of times.
class StreamUnpacker {
public:
    /// @param most bytes that all of them may unpack to
    explicit StreamUnpacker(std::size_t most) : most_(most), left_(most) {}

    /// A stream's bytes. @throws TooMuch when the file has unpacked to too many; std::runtime_error when the stream is damaged
    std::string unpacked(Handle stream);
    /// The bytes of a stream that no file was opened for. @param filters, parameters as its dictionary has them @throws as above
    std::string unpacked(std::string_view packed, Handle filters, Handle parameters);
    /// The content of a page, or of a form: its streams one after the other. @throws as unpacked()
    std::string content(Handle streams);

private:
    void charge(std::size_t bytes);
    std::string through(std::string_view packed, Handle filter, Handle parameters);

    std::size_t most_, left_;
};

/// The XMP packet of a file; "" where it has none. @throws as StreamUnpacker::unpacked()
std::string packet_of(QPDF& file);

/// Reads the operators of content that was unpacked. @throws as require_readable_content()
void parse_content(const std::string& content, Handle::ParserCallbacks& callbacks);

}  // namespace wayfolio::unpack
