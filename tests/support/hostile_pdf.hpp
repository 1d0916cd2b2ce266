#pragma once
#include <zlib.h>

#include <map>
#include <stdexcept>
#include <string>

/// PDFs of a few kilobytes that ask their reader for any amount of time or memory.
namespace wayfolio::support {

inline std::string repeated(const std::string& part, int times) {
    std::string text;
    for (int i = 0; i < times; ++i) text += part;
    return text;
}

inline std::string deflated(const std::string& bytes) {
    uLongf size = compressBound(bytes.size());
    std::string made(size, '\0');
    compress2(reinterpret_cast<Bytef*>(made.data()), &size, reinterpret_cast<const Bytef*>(bytes.data()), bytes.size(), 9);
    made.resize(size);
    return made;
}

/// So many blanks, packed and packed again. The first packing is a head, one block of a mebibyte over and over, and an end; of it only what
/// differs is made by zlib, for 4 GB would take it half a minute.
inline std::string packed_twice(std::size_t blanks) {
    constexpr std::size_t piece = 1 << 20;
    z_stream stream{};
    deflateInit(&stream, Z_BEST_COMPRESSION);
    std::string input(piece, ' '), output(2 * piece, '\0'), once;
    const auto pack = [&](int flush) {
        stream.next_in = reinterpret_cast<Bytef*>(input.data());
        stream.avail_in = static_cast<uInt>(input.size());
        stream.next_out = reinterpret_cast<Bytef*>(output.data());
        stream.avail_out = static_cast<uInt>(output.size());
        deflate(&stream, flush);
        return output.substr(0, output.size() - stream.avail_out);
    };
    once = pack(Z_FULL_FLUSH);
    const std::string block = pack(Z_FULL_FLUSH);
    deflateEnd(&stream);
    for (std::size_t made = 2 * piece; made < blanks; made += piece) once += block;
    return deflated(once);
}

/// A PDF of these objects (object 1 is the catalog), which says that this program made it.
inline std::string pdf_of(std::map<int, std::string> objects) {
    objects.try_emplace(1, "<< /Type /Catalog /Pages 2 0 R >>");
    objects.try_emplace(2, "<< /Type /Pages /Kids [3 0 R] /Count 1 >>");
    objects.try_emplace(3, "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 99 99] /Contents 4 0 R >>");
    objects.try_emplace(4, "<< /Length 0 >>\nstream\n\nendstream");
    objects.try_emplace(90, "<< /Creator (wayfolio 0.1.0) >>");
    std::string pdf = "%PDF-1.7\n%\xe2\xe3\xcf\xd3\n", table;
    int next = 0;
    for (const auto& [number, bytes] : objects) {
        for (; next < number; ++next) table += next == 0 ? "0000000000 65535 f \n" : "0000000000 00000 f \n";
        std::string place = std::to_string(pdf.size());
        table += std::string(10 - place.size(), '0') + place + " 00000 n \n";
        pdf += std::to_string(number) + " 0 obj\n" + bytes + "\nendobj\n";
        ++next;
    }
    const std::string start = std::to_string(pdf.size());
    return pdf + "xref\n0 " + std::to_string(next) + "\n" + table + "trailer\n<< /Size " + std::to_string(next) +
           " /Root 1 0 R /Info 90 0 R /ID [<00> <00>] >>\nstartxref\n" + start + "\n%%EOF\n";
}

inline std::string stream_of(const std::string& bytes, const std::string& entries) {
    return "<< " + entries + " /Length " + std::to_string(bytes.size()) + " >>\nstream\n" + bytes + "\nendstream";
}

/// A PDF whose objects are named by a cross-reference stream of one byte, four bytes and one byte an entry.
/// @param objects as of pdf_of() @param held the numbers of objects in an object stream: its number, and their place there
/// @param references the packed bytes of the cross-reference stream and what its dictionary says of them; by itself those of the file
inline std::string packed_pdf_of(std::map<int, std::string> objects, const std::map<int, std::pair<int, int>>& held,
                                 const std::string& references = "", const std::string& filter = "") {
    std::string pdf = "%PDF-1.7\n%\xe2\xe3\xcf\xd3\n", table;
    std::map<int, std::string> entries{{0, std::string(6, '\0')}};
    const auto entry = [](int kind, std::size_t place, int last) {
        std::string bytes(1, static_cast<char>(kind));
        for (int shift = 24; shift >= 0; shift -= 8) bytes += static_cast<char>(place >> shift & 0xFF);
        return bytes + static_cast<char>(last);
    };
    for (const auto& [number, bytes] : objects) {
        entries[number] = entry(1, pdf.size(), 0);
        pdf += std::to_string(number) + " 0 obj\n" + bytes + "\nendobj\n";
    }
    for (const auto& [number, place] : held) entries[number] = entry(2, static_cast<std::size_t>(place.first), place.second);
    std::string index;
    for (const auto& [number, bytes] : entries) {
        index += std::to_string(number) + " 1 ";
        table += bytes;
    }
    const int last = entries.rbegin()->first;
    const std::string dictionary = "/Type /XRef /W [1 4 1] /Root " + std::string(held.empty() ? "1" : "10") +
                                   " 0 R /ID [<00> <00>] /Size " + std::to_string(last + 2) + " /Index [" + index + "] ";
    const std::string start = std::to_string(pdf.size());
    pdf += std::to_string(last + 1) + " 0 obj\n" +
           stream_of(references.empty() ? table : references, dictionary + (filter.empty() ? "" : "/Filter " + filter)) + "\nendobj\n";
    return pdf + "startxref\n" + start + "\n%%EOF\n";
}

/// A PDF whose objects from 10 on, of which 10 is the catalog, stand in an object stream.
/// @param head numbers and places of them @param text the objects @param packed where it is given, what stands there instead of both
inline std::string with_object_stream(const std::string& head, const std::string& text, int objects, const std::string& packed = "",
                                      const std::string& filter = "") {
    std::map<int, std::pair<int, int>> held;
    for (int i = 0; i < objects; ++i) held[10 + i] = {5, i % 256};
    const std::string bytes = head + "\n" + text;
    const std::string dictionary = "/Type /ObjStm /N " + std::to_string(objects) + " /First " + std::to_string(head.size() + 1);
    return packed_pdf_of({{2, "<< /Type /Pages /Kids [3 0 R] /Count 1 >>"},
                          {3, "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 99 99] >>"},
                          {5, stream_of(packed.empty() ? bytes : packed, dictionary + (filter.empty() ? "" : " /Filter " + filter))}},
                         held);
}

inline std::string with_content(const std::string& bytes, const std::string& filter) {
    return pdf_of({{4, stream_of(bytes, "/Filter " + filter)}});
}

/// A page whose content is one stream, over and over.
inline std::string with_content_named(int times) {
    return pdf_of({{3, "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 99 99] /Contents [" + repeated("4 0 R ", times) + "] >>"},
                   {4, stream_of(deflated(repeated("0 0 m S ", 20'000)), "/Filter /FlateDecode")}});
}

/// One page, listed over and over.
inline std::string with_pages(int times) {
    return pdf_of({{2, "<< /Type /Pages /Kids [" + repeated("3 0 R ", times) + "] /Count " + std::to_string(times) + " >>"},
                   {4, stream_of(deflated(repeated("0 0 m S ", 20'000)), "/Filter /FlateDecode")}});
}

/// @param root entries of the root of the structure, object 6; @param element those of object 7
inline std::string with_structure(const std::string& root, const std::string& element) {
    const std::string content = "/P << /MCID 0 >> BDC 0 0 m 9 9 l S EMC";
    return pdf_of({{1, "<< /Type /Catalog /Pages 2 0 R /StructTreeRoot 6 0 R >>"},
                   {4, stream_of(content, "")},
                   {6, "<< /Type /StructTreeRoot " + root + " >>"},
                   {7, "<< " + element + " >>"}});
}

/// @param entry entries of the first bookmark, object 9
inline std::string with_outline(const std::string& entry) {
    return pdf_of({{1, "<< /Type /Catalog /Pages 2 0 R /Outlines 8 0 R >>"},
                   {8, "<< /First 9 0 R /Count 1 >>"},
                   {9, "<< /Title (a) " + entry + " >>"}});
}

inline std::string with_unicode_map(const std::string& map) {
    return pdf_of({{3, "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 99 99] /Contents 4 0 R /Resources << /Font << /F 6 0 R >> >> >>"},
                   {4, stream_of("BT /F 9 Tf <0001> Tj ET", "")},
                   {6, "<< /Type /Font /Subtype /Type0 /BaseFont /A /Encoding /Identity-H /ToUnicode 7 0 R /DescendantFonts [8 0 R] >>"},
                   {7, stream_of(deflated(map), "/Filter /FlateDecode")},
                   {8, "<< /Type /Font /Subtype /CIDFontType2 /BaseFont /A >>"}});
}

/// Files that it carries: one stream under so many names, beside a list of inputs.
inline std::string with_attachments(const std::string& packed, const std::string& filter, int names) {
    const auto specification = [](const std::string& name, int object) {
        return "(" + name + ") << /Type /Filespec /F (" + name + ") /UF (" + name + ") /EF << /F " + std::to_string(object) + " 0 R >> >> ";
    };
    std::string all;
    for (int i = 0; i < names; ++i) all += specification("f" + std::to_string(10 + i), 11);
    return pdf_of({{1, "<< /Type /Catalog /Pages 2 0 R /Names << /EmbeddedFiles << /Names [" + all +
        specification("wayfolio-inputs.json", 12) +
                           "] >> >> >>"},
                   {11, stream_of(packed, "/Type /EmbeddedFile /Filter " + filter)},
                   {12, stream_of("{}", "/Type /EmbeddedFile")}});
}

/// Forms that each draw the next twice.
inline std::string with_forms(int levels) {
    std::map<int, std::string> objects{
        {3, "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 99 99] /Contents 4 0 R /Resources << /XObject << /X 10 0 R >> >> >>"},
        {4, stream_of("/X Do", "")}};
    const std::string head = "/Type /XObject /Subtype /Form /BBox [0 0 9 9] ";
    for (int i = 0; i < levels; ++i)
        objects[10 + i] = stream_of("/X Do /X Do", head + "/Resources << /XObject << /X " + std::to_string(11 + i) + " 0 R >> >>");
    objects[10 + levels] = stream_of("0 0 9 9 re f", head);
    return pdf_of(objects);
}

}  // namespace wayfolio::support
