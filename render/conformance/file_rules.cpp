#include "conformance/checked_file.hpp"

#include <algorithm>

namespace wayfolio::conformance {

namespace {

bool is_line_end(char c) { return c == '\n' || c == '\r'; }

void check_header(const CheckedFile& subject) {
    const std::string& bytes = subject.bytes;
    const std::size_t line = bytes.find('\n');
    const bool version = bytes.starts_with("%PDF-1.") && line == 8 && bytes[7] >= '0' && bytes[7] <= '7';
    const auto high = [](char c) { return static_cast<unsigned char>(c) > 127; };
    const bool comment =
        version && bytes.size() > line + 6 && bytes[line + 1] == '%' && std::all_of(&bytes[line + 2], &bytes[line + 6], high);
    if (!comment) subject.fault("file-header", "first two lines", "not %PDF-1.n and a comment of four bytes above 127");
}

void check_end(const CheckedFile& subject) {
    const std::size_t end = subject.bytes.rfind("%%EOF");
    const std::string after = end == std::string::npos ? "x" : subject.bytes.substr(end + 5);
    if (after.size() > 2 || !std::ranges::all_of(after, is_line_end))
        subject.fault("file-end", "end of file", "more than a line end after %%EOF");
}

/// The word also ends "endstream" inside compressed data so rarely that it would be worth a look.
void check_streams(const CheckedFile& subject) {
    for (std::size_t at = subject.bytes.find("endstream"); at != std::string::npos; at = subject.bytes.find("endstream", at + 1))
        if (at == 0 || !is_line_end(subject.bytes[at - 1]))
            return subject.fault("file-streams", "byte " + std::to_string(at), "no line end before endstream");
}

}  // namespace

void check_file(const CheckedFile& subject) {
    check_header(subject);
    check_end(subject);
    check_streams(subject);
    Handle trailer = subject.file.getTrailer(), id = trailer.getKey("/ID");
    if (!id.isArray() || id.getArrayNItems() != 2 || !id.getArrayItem(0).isString() || id.getArrayItem(0).getStringValue().empty())
        subject.fault("file-id", "trailer", "no ID");
    if (trailer.hasKey("/Encrypt")) subject.fault("file-encryption", "trailer", "encrypted");
}

}  // namespace wayfolio::conformance
