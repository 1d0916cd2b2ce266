#include "conformance/checked_file.hpp"

#include <algorithm>
#include <cstdio>
#include <iterator>
#include <map>
#include <memory>
#include <qpdf/BufferInputSource.hh>
#include <qpdf/QPDFTokenizer.hh>
#include <string_view>

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

/// Where the bytes of a stream begin, behind the line end after its word "stream" (ISO 32000-1, 7.3.8.1); npos where that is not found.
/// @param stop where the next object begins: nothing of this one lies behind it
std::size_t data_begins(const std::string& bytes, const std::shared_ptr<InputSource>& source, qpdf_offset_t object_at, qpdf_offset_t stop) {
    source->seek(object_at, SEEK_SET);
    QPDFTokenizer tokenizer;
    // A token that is cut off by the end of the file is given again and again: whoever does not go on is at the end.
    for (qpdf_offset_t before = -1; source->tell() > before && source->tell() < stop;) {
        before = source->tell();
        const QPDFTokenizer::Token token = tokenizer.readToken(source, "PDF", /*allow_bad=*/true);
        if (token.isWord("endobj") || token.getType() == QPDFTokenizer::tt_eof) break;
        if (!token.isWord("stream")) continue;
        const auto at = static_cast<std::size_t>(source->tell());
        if (bytes.compare(at, 2, "\r\n") == 0) return at + 2;
        return at < bytes.size() && bytes[at] == '\n' ? at + 1 : std::string::npos;
    }
    return std::string::npos;
}

constexpr int in_the_open = 1;

/// By where an object begins: where the bytes of its stream do. Each place is looked at once, and as far as the next: however many
/// objects are said to lie there, the file is read through once.
std::map<qpdf_offset_t, std::size_t> beginnings_of_data(const CheckedFile& subject) {
    std::map<qpdf_offset_t, std::size_t> beginnings;
    for (const auto& [object, entry] : subject.file.getXRefTable())
        if (entry.getType() == in_the_open) beginnings[entry.getOffset()] = std::string::npos;
    const auto source = std::make_shared<BufferInputSource>("PDF", subject.bytes);
    for (auto at = beginnings.begin(); at != beginnings.end(); ++at) {
        const auto next = std::next(at);
        const auto end = static_cast<qpdf_offset_t>(subject.bytes.size());
        at->second = data_begins(subject.bytes, source, at->first, next == beginnings.end() ? end : std::min(end, next->first));
    }
    return beginnings;
}

/// Goes by the places and lengths that the file states, never by the word "endstream", which may stand in any string or stream.
void check_streams(const CheckedFile& subject) {
    const auto beginnings = beginnings_of_data(subject);
    for (const auto& [object, entry] : subject.file.getXRefTable()) {
        if (entry.getType() != in_the_open) continue;
        Handle stream = subject.file.getObject(object);
        if (!stream.isStream() || !stream.getDict().getKey("/Length").isInteger()) continue;
        const std::string where = "object " + std::to_string(object.getObj());
        const std::size_t begin = beginnings.at(entry.getOffset());
        if (begin == std::string::npos) {
            subject.fault("file-streams", where, "no line end after stream");
            continue;
        }
        const std::size_t end = begin + static_cast<std::size_t>(stream.getDict().getKey("/Length").getIntValue());
        const std::string_view after = end < subject.bytes.size() ? std::string_view(subject.bytes).substr(end, 11) : std::string_view();
        if (!after.starts_with("\nendstream") && !after.starts_with("\rendstream") && !after.starts_with("\r\nendstream"))
            subject.fault("file-streams", where, "its length is wrong, or no line end stands before endstream");
    }
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
