#include "text/missing_glyph.hpp"

#include <fmt/format.h>
#include <pango/pango.h>

#include <algorithm>

namespace wayfolio::text {

namespace {

/// Unicode script name, or "" where a character belongs to no one script (signs, emoji, marks).
std::string script_name(gunichar character) {
    const GUnicodeScript script = g_unichar_get_script(character);
    if (script == G_UNICODE_SCRIPT_COMMON || script == G_UNICODE_SCRIPT_INHERITED || script == G_UNICODE_SCRIPT_UNKNOWN)
        return "";
    // PangoScript has the numbers of GUnicodeScript, and GObject knows the names of its values.
    auto* names = static_cast<GEnumClass*>(g_type_class_ref(PANGO_TYPE_SCRIPT));
    const GEnumValue* value = g_enum_get_value(names, static_cast<int>(script));
    std::string name = value ? value->value_nick : "";
    g_type_class_unref(names);
    std::ranges::replace(name, '-', ' ');
    if (!name.empty()) name[0] = g_ascii_toupper(name[0]);
    return name;
}

std::string described(char32_t character) {
    std::string shown(6, '\0');
    shown.resize(static_cast<std::size_t>(g_unichar_to_utf8(character, shown.data())));
    const bool printable = g_unichar_isprint(character) && !g_unichar_ismark(character);
    const std::string script = script_name(character);
    return fmt::format("{}(U+{:04X}{})", printable ? "\"" + shown + "\" " : "", static_cast<std::uint32_t>(character),
                       script.empty() ? "" : ", script " + script);
}

}  // namespace

GlyphMissing missing_glyph(char32_t character) {
    return {"the character " + described(character),
            "characters that a private font has: Latin, Greek and Cyrillic letters, figures and signs"};
}

GlyphMissing right_to_left(char32_t character) { return {"the character " + described(character), "text written from left to right"}; }

}  // namespace wayfolio::text
