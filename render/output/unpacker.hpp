#pragma once
#include "output/pdf/qpdf.hpp"

namespace wayfolio::output {

/// Unpacks the streams of one file that anybody may have made: a few bytes can unpack to any number, and one stream can be named any
/// number of times.
class StreamUnpacker {
public:
    /// @param file_bytes size of the file: what this program writes unpacks to far less than sixteen times of it
    explicit StreamUnpacker(std::size_t file_bytes) : most_((std::size_t{4} << 20) + 16 * file_bytes), left_(most_) {}

    /// A stream's bytes. @throws std::runtime_error when the file has unpacked to too many, or the stream is damaged
    std::string unpacked(Handle stream);
    /// The content of a page, or of a form: its streams one after the other. @throws as unpacked()
    std::string content(Handle streams);

private:
    std::size_t most_, left_;
};

/// The XMP packet of a file; "" where it has none. @throws as StreamUnpacker::unpacked()
std::string packet_of(QPDF& file);

/// Reads the operators of content that was unpacked.
void parse_content(const std::string& content, Handle::ParserCallbacks& callbacks);

}  // namespace wayfolio::output
