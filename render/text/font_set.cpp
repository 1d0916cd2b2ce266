#include "text/font_set.hpp"

#include "input/digest.hpp"
#include "private_fonts.hpp"

#include <cairo-ft.h>
#include <fmt/format.h>
#include <pango/pangofc-font.h>
#include <pango/pangofc-fontmap.h>

#include <array>
#include <fstream>

namespace wayfolio::text {

namespace {

/// In pieces: whole files in memory would cost more in fresh pages than the hashing itself.
std::string sha256_of_file(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file) throw FontFailed(fmt::format("the font file {} is missing (install wayfolio again)", path));
    input::Digest digest(input::DigestKind::Sha256);
    std::array<char, 65536> piece{};
    while (file) {
        file.read(piece.data(), piece.size());
        digest.add({piece.data(), static_cast<std::size_t>(file.gcount())});
    }
    if (!file.eof()) throw FontFailed(fmt::format("the font file {} cannot be read", path));
    return digest.hex();
}

/// Lives as long as the pattern.
std::string_view file_name(const FcPattern* pattern) {
    FcChar8* path = nullptr;
    if (!pattern || FcPatternGetString(pattern, FC_FILE, 0, &path) != FcResultMatch) return "";
    const std::string_view whole(reinterpret_cast<const char*>(path));
    return whole.substr(whole.rfind('/') + 1);
}

/// Unhinted outlines, so that text measures alike on every surface.
Owned<cairo_font_options_t, cairo_font_options_destroy> unhinted() {
    Owned<cairo_font_options_t, cairo_font_options_destroy> options(cairo_font_options_create());
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
    return options;
}

}  // namespace

std::vector<Shaper::FontFile> listed_fonts() {
    std::vector<Shaper::FontFile> all;
    for (const PrivateFont& font : private_fonts) all.push_back({font.family, font.style, font.file, font.sha256});
    return all;
}

FontSet::FontSet(const std::string& folder) {
    open_files(folder);
    open_map();
    open_faces();
}

FontSet FontSet::beside() const {
    FontSet another;
    another.config_.reset(FcConfigReference(config_.get()));
    another.open_map();
    another.open_faces();
    return another;
}

void FontSet::open_map() {
    // Trap: Pango's font map starts a thread that reads the host's fonts unless a configuration is current before the map exists.
    FcConfigSetCurrent(config_.get());
    map_.reset(pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT));
    if (!map_) throw FontFailed("Pango was built without FreeType fonts");
    pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(map_.get()), config_.get());
    // Pango's default is 96 dpi; at 72 one of its units is one point.
    pango_cairo_font_map_set_resolution(PANGO_CAIRO_FONT_MAP(map_.get()), 72.0);
    context_.reset(pango_font_map_create_context(map_.get()));
    pango_cairo_context_set_font_options(context_.get(), unhinted().get());
    pango_context_set_round_glyph_positions(context_.get(), FALSE);
    pango_context_set_language(context_.get(), pango_language_from_string("en"));
}

void FontSet::open_files(const std::string& folder) {
    config_.reset(FcConfigCreate());
    for (const PrivateFont& font : private_fonts) {
        const std::string path = folder + "/" + font.file;
        if (sha256_of_file(path) != font.sha256)
            throw FontFailed(
                fmt::format("the font file {} is not the one this program was built with (its SHA-256 differs)", path));
        // These bytes are a font: where that does not work, it is memory that lacks.
        if (!FcConfigAppFontAddFile(config_.get(), reinterpret_cast<const FcChar8*>(path.c_str()))) throw std::bad_alloc();
    }
}

void FontSet::open_faces() {
    const FcFontSet* patterns = FcConfigGetFonts(config_.get(), FcSetApplication);
    for (const PrivateFont& font : private_fonts) {
        for (int i = 0; patterns && i < patterns->nfont; ++i)
            if (file_name(patterns->fonts[i]) == font.file) {
                faces_.emplace_back(cairo_ft_font_face_create_for_pattern(patterns->fonts[i]));
                break;
            }
        if (faces_.empty() || cairo_font_face_status(faces_.back().get()) != CAIRO_STATUS_SUCCESS)
            throw FontFailed(fmt::format("the font file {} cannot be opened for drawing", font.file));
    }
    if (faces_.size() != std::size(private_fonts)) throw FontFailed("a private font file holds no usable face");
}

frame::FaceId FontSet::face_of(PangoFont* font) const {
    const std::string_view name = file_name(pango_fc_font_get_pattern(PANGO_FC_FONT(font)));
    for (std::uint32_t index = 0; index < std::size(private_fonts); ++index)
        if (private_fonts[index].file == name) return {index};
    throw FontFailed(fmt::format("text was about to be set in \"{}\", which is not a private font", name));
}

}  // namespace wayfolio::text
