#include "text/shaper.hpp"

#include <fmt/format.h>
#include <fontconfig/fontconfig.h>
#include <ft2build.h>
#include FT_FREETYPE_H
#include <hb.h>
#include <pango/pango.h>

namespace wayfolio::text {

namespace {

std::string freetype_version() {
    FT_Library library = nullptr;
    if (FT_Init_FreeType(&library) != 0) throw FontFailed("FreeType does not start");
    FT_Int major = 0, minor = 0, patch = 0;
    FT_Library_Version(library, &major, &minor, &patch);
    FT_Done_FreeType(library);
    return fmt::format("{}.{}.{}", major, minor, patch);
}

std::string fontconfig_version() {
    const int version = FcGetVersion();  // major * 10000 + minor * 100 + revision
    return fmt::format("{}.{}.{}", version / 10000, version / 100 % 100, version % 100);
}

}  // namespace

LibraryVersions library_versions() {
    return {{"pango", pango_version_string()},
            {"harfbuzz", hb_version_string()},
            {"freetype", freetype_version()},
            {"fontconfig", fontconfig_version()}};
}

}  // namespace wayfolio::text
