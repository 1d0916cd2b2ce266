#include "conformance/read/font_program.hpp"

#include <array>
#include <ft2build.h>
#include <map>
#include FT_FREETYPE_H
#include FT_CID_H

namespace wayfolio::conformance {

namespace {

/// Unicode of the codes 0x80 to 0x9F of WinAnsiEncoding (ISO 32000-1, annex D.2); the other codes are Latin-1.
constexpr std::array<char32_t, 32> win_ansi_middle{0x20AC, 0x2022, 0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
                                                   0x2039, 0x0152, 0x2022, 0x017D, 0x2022, 0x2022, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
                                                   0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0x2022, 0x017E, 0x0178};

char32_t win_ansi(unsigned code) { return code >= 0x80 && code < 0xA0 ? win_ansi_middle.at(code - 0x80) : code; }

bool is_composite(Handle font) { return font.getKey("/Subtype").isNameAndEquals("/Type0"); }

std::string program_of(Handle font, unpack::StreamUnpacker& unpacker) {
    Handle descriptor = inner_font(font).getKey("/FontDescriptor");
    if (!descriptor.isDictionary()) return {};
    for (const char* key : {"/FontFile", "/FontFile2", "/FontFile3"})
        if (descriptor.getKey(key).isStream()) return unpacker.unpacked(descriptor.getKey(key));
    return {};
}

/// The glyph name that an encoding's differences give a code; "" where they give none.
std::string name_of(Handle encoding, unsigned code) {
    Handle differences = encoding.isDictionary() ? encoding.getKey("/Differences") : Handle::newNull();
    long long next = 0;
    for (Handle one : differences.isArray() ? differences.getArrayAsVector() : std::vector<Handle>{}) {
        if (one.isInteger()) next = one.getIntValue();
        else if (one.isName() && next++ == code) return one.getName().substr(1);
    }
    return {};
}

}  // namespace

struct FontProgram::Face {
    Handle font;
    std::string bytes;
    FT_Library library = nullptr;
    FT_Face face = nullptr;
    std::map<unsigned, FT_UInt> by_cid{};  ///< glyphs of a CID-keyed program
    std::string glyph_map{};               ///< of /CIDToGIDMap, where that is a stream: two bytes a code

    Face(Handle of, std::string program) : font(of), bytes(std::move(program)) {
        if (bytes.empty() || FT_Init_FreeType(&library) != 0) return;
        const auto* const data = reinterpret_cast<const FT_Byte*>(bytes.data());
        if (FT_New_Memory_Face(library, data, static_cast<FT_Long>(bytes.size()), 0, &face) != 0) face = nullptr;
        for (FT_UInt glyph = 0; face != nullptr && FT_IS_CID_KEYED(face) && glyph < static_cast<FT_UInt>(face->num_glyphs); ++glyph)
            if (FT_UInt cid = 0; FT_Get_CID_From_Glyph_Index(face, glyph, &cid) == 0) by_cid[cid] = glyph;
    }
    Face(const Face&) = delete;
    Face& operator=(const Face&) = delete;
    ~Face() {
        if (face != nullptr) FT_Done_Face(face);
        if (library != nullptr) FT_Done_FreeType(library);
    }

    [[nodiscard]] std::optional<FT_UInt> composite_glyph(unsigned code) const {
        Handle composite = font, encoding = composite.getKey("/Encoding"), map = inner_font(composite).getKey("/CIDToGIDMap");
        if (!encoding.isNameAndEquals("/Identity-H") && !encoding.isNameAndEquals("/Identity-V")) return std::nullopt;
        if (map.isStream()) {
            const std::string& glyphs = glyph_map;
            const auto byte = [&](std::size_t at) { return static_cast<unsigned>(static_cast<unsigned char>(glyphs.at(at))); };
            return 2 * code + 1 < glyphs.size() ? byte(2 * code) << 8U | byte(2 * code + 1) : 0;
        }
        if (!FT_IS_CID_KEYED(face)) return code;
        const auto found = by_cid.find(code);
        return found == by_cid.end() ? 0 : found->second;
    }
    [[nodiscard]] std::optional<FT_UInt> simple_glyph(unsigned code) const {
        Handle simple = font, encoding = simple.getKey("/Encoding");
        if (std::string name = name_of(encoding, code); !name.empty()) return FT_Get_Name_Index(face, name.data());
        if (encoding.isDictionary()) encoding = encoding.getKey("/BaseEncoding");
        if (!encoding.isNameAndEquals("/WinAnsiEncoding") || FT_Select_Charmap(face, FT_ENCODING_UNICODE) != 0) return std::nullopt;
        return FT_Get_Char_Index(face, win_ansi(code));
    }
};

FontProgram::FontProgram(Handle font, unpack::StreamUnpacker& unpacker) : face_(std::make_unique<Face>(font, program_of(font, unpacker))) {
    if (Handle map = inner_font(font).getKey("/CIDToGIDMap"); map.isStream()) face_->glyph_map = unpacker.unpacked(map);
}
FontProgram::~FontProgram() = default;

std::optional<double> FontProgram::width(unsigned code) const {
    FT_Face face = face_->face;
    if (face == nullptr || face->units_per_EM == 0) return std::nullopt;
    const std::optional<FT_UInt> glyph = is_composite(face_->font) ? face_->composite_glyph(code) : face_->simple_glyph(code);
    if (!glyph || FT_Load_Glyph(face, *glyph, FT_LOAD_NO_SCALE | FT_LOAD_NO_HINTING) != 0) return std::nullopt;
    constexpr double thousandths = 1000;
    return static_cast<double>(face->glyph->metrics.horiAdvance) * thousandths / face->units_per_EM;
}

Handle inner_font(Handle font) {
    if (!is_composite(font)) return font;
    Handle descendants = font.getKey("/DescendantFonts");
    return descendants.isArray() && descendants.getArrayNItems() == 1 ? descendants.getArrayItem(0) : Handle::newDictionary();
}

std::optional<double> said_width(Handle font, unsigned code) {
    Handle inner = inner_font(font);
    if (!is_composite(font)) {
        Handle widths = inner.getKey("/Widths"), first = inner.getKey("/FirstChar");
        if (!widths.isArray() || !first.isInteger()) return std::nullopt;
        const long long place = static_cast<long long>(code) - first.getIntValue();
        if (place < 0 || place >= widths.getArrayNItems()) return 0;
        return widths.getArrayItem(static_cast<int>(place)).getNumericValue();
    }
    Handle widths = inner.getKey("/W"), standard = inner.getKey("/DW");
    std::vector<Handle> items = widths.isArray() ? widths.getArrayAsVector() : std::vector<Handle>{};
    for (std::size_t i = 0; i + 1 < items.size();) {
        const long long from = items[i].isInteger() ? items[i].getIntValue() : 0, place = static_cast<long long>(code) - from;
        Handle next = items[i + 1];
        if (next.isArray()) {
            if (place >= 0 && place < next.getArrayNItems()) return next.getArrayItem(static_cast<int>(place)).getNumericValue();
            i += 2;
        } else if (i + 2 < items.size() && next.isInteger()) {
            if (place >= 0 && code <= next.getIntValue()) return items[i + 2].getNumericValue();
            i += 3;
        } else {
            break;
        }
    }
    constexpr double default_width = 1000;
    return standard.isNumber() ? standard.getNumericValue() : default_width;
}

}  // namespace wayfolio::conformance
