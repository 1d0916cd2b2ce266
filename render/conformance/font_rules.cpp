#include "conformance/checked_file.hpp"
#include "conformance/read/font_program.hpp"
#include "conformance/read/page_content.hpp"
#include "conformance/read/unicode_map.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace wayfolio::conformance {

namespace {

bool is_name(Handle dictionary, const char* key, const char* name) { return dictionary.getKey(key).isNameAndEquals(name); }

std::string font_name(Handle font) { return font.getKey("/BaseFont").isName() ? font.getKey("/BaseFont").getName() : "a font"; }

bool has_file(Handle font) {
    Handle descriptor = font.getKey("/FontDescriptor");
    if (!descriptor.isDictionary()) return false;
    for (const char* key : {"/FontFile", "/FontFile2", "/FontFile3"})
        if (descriptor.getKey(key).isStream()) return true;
    return false;
}

std::string code_point(char32_t character) {
    constexpr std::string_view digits = "0123456789ABCDEF";
    std::string text;
    for (int shift = character > 0xFFFF ? 20 : 12; shift >= 0; shift -= 4) text += digits[character >> shift & 0xFU];
    return "U+" + text;
}

void check_font(const CheckedFile& subject, Handle font) {
    Handle inner = inner_font(font);
    if (!has_file(inner)) subject.fault("font-embedded", font_name(font), "not embedded");
    if (!font.getKey("/ToUnicode").isStream()) subject.fault("font-unicode", font_name(font), "no map to Unicode");
    if (is_name(inner, "/Subtype", "/CIDFontType2") && !is_name(inner, "/CIDToGIDMap", "/Identity") &&
        !inner.getKey("/CIDToGIDMap").isStream())
        subject.fault("font-glyph-map", font_name(font), "no /CIDToGIDMap");
    for (const auto& [code, text] : unicode_of(font, subject.unpacker))
        for (const char32_t character : text)
            if (character == 0 || character == 0xFEFF || character == 0xFFFE)
                subject.fault("font-unicode-values", font_name(font), "code " + std::to_string(code) + " means " + code_point(character));
}

/// A font with the codes that pages show by it.
struct UsedFont {
    Handle font;
    std::set<unsigned> codes;
};

/// ISO 19005-3, 6.2.11.5: of the glyphs that are shown, to a thousandth of the size.
void check_widths(const CheckedFile& subject, const UsedFont& used) {
    constexpr std::size_t most_work = 20'000'000;  // each code is looked for among the widths
    if (Handle widths = inner_font(used.font).getKey("/W"); widths.isArray())
        if (used.codes.size() * static_cast<std::size_t>(widths.getArrayNItems()) > most_work)
            return subject.fault("font-widths", font_name(used.font), "more widths than can be looked through");
    const FontProgram program(used.font, subject.unpacker);
    for (const unsigned code : used.codes) {
        const std::optional<double> said = said_width(used.font, code), there = program.width(code);
        if (said && there && std::abs(*said - *there) > 1)
            subject.fault("font-widths", font_name(used.font),
                          "code " + std::to_string(code) + " is " + std::to_string(std::lround(*said)) + " wide, but " +
                              std::to_string(std::lround(*there)) + " in the font program");
    }
}

}  // namespace

void check_fonts(const CheckedFile& subject) {
    for (Handle object : subject.file.getAllObjects())
        if (object.isDictionary() && is_name(object, "/Type", "/Font") && !is_name(object, "/Subtype", "/CIDFontType0") &&
            !is_name(object, "/Subtype", "/CIDFontType2"))
            check_font(subject, object);
    std::map<QPDFObjGen, UsedFont> used;
    std::size_t number = 0;
    for (Handle page : subject.file.getAllPages()) {
        Handle fonts = resources_of(page, "/Font");
        for (const Shown& shown : subject.contents[number].shown)
            if (Handle font = fonts.getKey(shown.font); font.isDictionary()) {
                UsedFont& entry = used.try_emplace(font.getObjGen(), UsedFont{font, {}}).first->second;
                entry.codes.insert(shown.code);
            }
        ++number;
    }
    for (const auto& [object, font] : used) check_widths(subject, font);
}

}  // namespace wayfolio::conformance
