#include "output/pdf/write_pdf.hpp"

#include "input/digest.hpp"

#include <fmt/format.h>

#include <cstdint>

namespace wayfolio::output {

namespace {

/// Where an object lies: at a byte of the file, or as the n-th of an object stream.
struct ObjectPlace {
    enum class Kind : std::uint8_t { InFile = 1, InStream = 2 } kind;  // ISO 32000-1 table 18
    std::size_t where;                                                 ///< byte, or number of the object stream
    std::size_t index;                                                 ///< in the object stream
};

constexpr std::size_t grid = 10;  // objects begin at round places: their offsets pack better, by a fortieth of the stream
constexpr std::size_t objects_per_stream = 1000;  // large enough to pack well, small enough to unpack one alone

/// Puts all texts into object streams, numbered after all that is there; `places` learns where each lies.
void add_object_streams(Objects& objects, std::map<int, ObjectPlace>& places) {
    for (auto text = objects.texts().begin(); text != objects.texts().end();) {
        const int stream = objects.number();
        std::string offsets, bodies;
        std::size_t count = 0;
        for (; text != objects.texts().end() && count < objects_per_stream; ++text, ++count) {
            offsets += fmt::format("{} {} ", text->first, bodies.size());
            bodies += text->second + "\n";
            bodies.append((grid - bodies.size() % grid) % grid, ' ');
            places[text->first] = {ObjectPlace::Kind::InStream, static_cast<std::size_t>(stream), count};
        }
        objects.put_stream(stream, fmt::format("/Type /ObjStm /N {} /First {} ", count, offsets.size()),
                           {.bytes = offsets + bodies, .pack = true});
    }
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

void append_stream(std::string& bytes, int number, const Objects::Stream& stream) {
    const auto& [entries, packed] = stream;
    // The line break before endstream: without it PDF/A-3 fails (ISO 19005-3 6.1.7.1).
    bytes += fmt::format("{} 0 obj\n<<{}/Length {}{}>>\nstream\n", number, entries, packed.bytes.size(),
                         packed.pack ? " /Filter /FlateDecode" : "");
    bytes += packed.bytes;
    bytes += "\nendstream\nendobj\n";
}

}  // namespace

std::string write_pdf(Objects objects, Trailer trailer, text::Threads threads) {
    std::map<int, ObjectPlace> places;
    add_object_streams(objects, places);
    std::vector<Packed*> packing;
    for (auto& [number, stream] : objects.streams()) packing.push_back(&stream.bytes);
    pack(packing, threads);

    std::string bytes = "%PDF-1.7\n%\xe2\xe3\xcf\xd3\n";
    for (const auto& [number, stream] : objects.streams()) {
        places[number] = {ObjectPlace::Kind::InFile, bytes.size(), 0};
        append_stream(bytes, number, stream);
    }
    const std::size_t start = bytes.size();
    const int last = objects.number();
    places[last] = {ObjectPlace::Kind::InFile, start, 0};
    const References table = references(places);
    const std::string id = input::sha256_hex(bytes).substr(0, 32);  // ISO 32000-1 14.4: 16 bytes
    Objects::Stream last_stream{
        fmt::format(
            "/Type /XRef /Size {} /Index [{}] /W [1 4 2] /DecodeParms <</Predictor 12 /Columns {}>> /Root {} /Info {} /ID [<{}> <{}>] ",
            last + 1, table.index, References::row_length, reference(trailer.root), reference(trailer.info), id, id),
        {.bytes = differences_of(table.rows, References::row_length), .pack = true}};
    pack({&last_stream.bytes}, threads);
    append_stream(bytes, last, last_stream);
    return bytes + fmt::format("startxref\n{}\n%%EOF\n", start);
}

}  // namespace wayfolio::output
