#include "output/pdf/write_pdf.hpp"

#include "input/sha256.hpp"
#include "output/pdf/packed.hpp"
#include "output/pdf/qpdf.hpp"
#include "output/pdf/reached_objects.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>

namespace wayfolio::output {

namespace {

/// Where an object lies: at a byte of the file, or as the n-th of an object stream.
struct ObjectPlace {
    enum class Kind : std::uint8_t { InFile = 1, InStream = 2 } kind;  // ISO 32000-1 table 18
    std::size_t where;                                                 ///< byte, or number of the object stream
    std::size_t index;                                                 ///< in the object stream
};

/// An object that lies in the file by itself: its dictionary without the closing ">>" and length, and its bytes.
struct OpenStream {
    int number;
    std::string dictionary;
    Packed packed;
};

constexpr std::size_t objects_per_stream = 200;  // large enough to pack well, small enough to unpack one alone

/// The dictionary of a stream in words, without /Length and the end, and with what packing adds.
OpenStream open_stream(Handle object) {
    Handle dictionary = object.getDict().shallowCopy();
    dictionary.removeKey("/Length");
    Packed packed{.bytes = text_of(object.getRawStreamData()), .pack = false};
    // ISO 19005-3 allows packed metadata; left in the open, an archive finds it without a PDF reader.
    packed.pack = dictionary.getKey("/Filter").isNull() && !dictionary.getKey("/Type").isNameAndEquals("/Metadata");
    std::string words = dictionary.unparse();
    words.erase(words.rfind(">>"));
    return {object.getObjectID(), std::move(words), std::move(packed)};
}

/// Object streams of all these texts, numbered from `next` on; `places` learns where each lies.
std::vector<OpenStream> object_streams(const ObjectTexts& texts, int next, std::map<int, ObjectPlace>& places) {
    std::vector<OpenStream> streams;
    for (auto text = texts.begin(); text != texts.end(); ++next) {
        std::string offsets, bodies;
        std::size_t count = 0;
        for (; text != texts.end() && count < objects_per_stream; ++text, ++count) {
            offsets += fmt::format("{} {} ", text->first, bodies.size());
            bodies += text->second + "\n";
            places[text->first] = {ObjectPlace::Kind::InStream, static_cast<std::size_t>(next), count};
        }
        streams.push_back({next, fmt::format("<</Type /ObjStm /N {} /First {} ", count, offsets.size()), {.bytes = offsets + bodies, .pack = true}});
    }
    return streams;
}

void append_big_endian(std::string& row, std::size_t value, int bytes) {
    for (int shift = 8 * (bytes - 1); shift >= 0; shift -= 8) row.push_back(static_cast<char>(value >> shift & 0xff));
}

/// The rows of the cross-reference stream and the runs of numbers that they stand for.
struct References {
    std::string index, rows;
    static constexpr int row_length = 7;  // /W [1 4 2]
};

References references(const std::map<int, ObjectPlace>& places) {
    References made{.index = "0 1", .rows = std::string(1, '\0') + std::string(4, '\0') + "\xff\xff"};
    int first = -1, next = -1;
    const auto close = [&] {
        if (first >= 0) made.index += fmt::format(" {} {}", first, next - first);
    };
    for (const auto& [number, place] : places) {
        if (number != next) {
            close();
            first = number;
        }
        next = number + 1;
        append_big_endian(made.rows, static_cast<std::size_t>(place.kind), 1);
        append_big_endian(made.rows, place.where, 4);
        append_big_endian(made.rows, place.index, 2);
    }
    close();
    return made;
}

/// PNG's "up" filter (ISO 32000-1 7.4.4.4): rows that differ little from the one above pack to almost nothing.
std::string differences_of(const std::string& rows, std::size_t length) {
    std::string filtered;
    for (std::size_t at = 0; at < rows.size(); ++at) {
        if (at % length == 0) filtered.push_back('\2');
        filtered.push_back(static_cast<char>(rows[at] - (at < length ? 0 : rows[at - length])));
    }
    return filtered;
}

void append_stream(std::string& bytes, const OpenStream& stream) {
    // The line break before endstream: without it PDF/A-3 fails (ISO 19005-3 6.1.7.1).
    bytes += fmt::format("{} 0 obj\n{}/Length {}{}>>\nstream\n", stream.number, stream.dictionary, stream.packed.bytes.size(), stream.packed.pack ? " /Filter /FlateDecode" : "");
    bytes += stream.packed.bytes;
    bytes += "\nendstream\nendobj\n";
}

}  // namespace

std::string write_pdf(QPDF& file, ObjectTexts texts) {
    std::vector<OpenStream> streams;
    const int last_of_file = static_cast<int>(file.getObjectCount());
    for (const Handle& reached : reached_objects(file, texts)) {
        if (Handle(reached).isStream()) streams.push_back(open_stream(reached));
        else texts[reached.getObjectID()] = Handle(reached).unparseResolved();
    }
    std::map<int, ObjectPlace> places;
    int next = std::max(last_of_file, texts.empty() ? 0 : texts.rbegin()->first) + 1;
    for (OpenStream& stream : object_streams(texts, next, places)) {
        next = stream.number + 1;
        streams.push_back(std::move(stream));
    }
    std::vector<Packed*> packing;
    for (OpenStream& stream : streams) packing.push_back(&stream.packed);
    pack(packing);

    std::string bytes = "%PDF-1.7\n%\xe2\xe3\xcf\xd3\n";
    for (const OpenStream& stream : streams) {
        places[stream.number] = {ObjectPlace::Kind::InFile, bytes.size(), 0};
        append_stream(bytes, stream);
    }
    const std::size_t start = bytes.size();
    places[next] = {ObjectPlace::Kind::InFile, start, 0};
    const References table = references(places);
    Handle trailer = file.getTrailer();
    const std::string id = input::sha256_hex(bytes).substr(0, 32);  // ISO 32000-1 14.4: 16 bytes
    OpenStream last{next, fmt::format("<</Type /XRef /Size {} /Index [{}] /W [1 4 2] /DecodeParms <</Predictor 12 /Columns {}>> /Root {} /Info {} /ID [<{}> <{}>] ",
                                      next + 1, table.index, References::row_length, trailer.getKey("/Root").unparse(), trailer.getKey("/Info").unparse(), id, id),
                    {.bytes = differences_of(table.rows, References::row_length), .pack = true}};
    pack({&last.packed});
    append_stream(bytes, last);
    return bytes + fmt::format("startxref\n{}\n%%EOF\n", start);
}

}  // namespace wayfolio::output
