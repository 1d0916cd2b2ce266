#include "text/shape_line.hpp"

#include "text/missing_glyph.hpp"

#include <hb.h>

#include <algorithm>
#include <cmath>

namespace wayfolio::text {

namespace {

using units::point;
using Attributes = Owned<PangoAttrList, pango_attr_list_unref>;
using Description = Owned<PangoFontDescription, pango_font_description_free>;
using Glyphs = Owned<PangoGlyphString, pango_glyph_string_free>;

Paper from_pango(double units) { return point(units / PANGO_SCALE); }

/// The pieces' text in one string, with where each piece ends.
struct Joined {
    std::string text;
    std::vector<std::size_t> ends;
};

Joined join(std::span<const Piece> pieces) {
    Joined joined;
    for (const Piece& piece : pieces) {
        joined.text += piece.text;
        joined.ends.push_back(joined.text.size());
    }
    std::ranges::replace_if(
        joined.text, [](char c) { return c == '\n' || c == '\t' || c == '\r'; }, ' ');
    return joined;
}

void add(PangoAttrList* list, PangoAttribute* attribute, std::size_t from, std::size_t to) {
    attribute->start_index = static_cast<guint>(from);
    attribute->end_index = static_cast<guint>(to);
    pango_attr_list_insert(list, attribute);
}

/// Latin letters as they stand in one character, punctuation and mathematical signs: nothing that combines with its neighbours.
bool nothing_combines(const std::string& text) {
    constexpr gunichar combining_begins = 0x300, punctuation = 0x2000, marks_of_signs = 0x20D0, letterlike = 0x2100, after_signs = 0x2300;
    for (const char* at = text.c_str(); *at != '\0'; at = g_utf8_next_char(at)) {
        const gunichar character = g_utf8_get_char(at);
        const bool alone = character < combining_begins || (character >= punctuation && character < marks_of_signs) ||
                           (character >= letterlike && character < after_signs);
        if (!alone) return false;
    }
    return true;
}

/// calt=0: Inter's contextual alternates turn "10x20" into "10×20", which rewrites data. The others compose letters and marks and place
/// marks; they took more than half of all shaping, and a test shows that they do nothing where nothing combines.
const char* features(const std::string& text) {
    return nothing_combines(text) ? "tnum=1, calt=0, ccmp=0, locl=0, mark=0, mkmk=0" : "tnum=1, calt=0";
}

Attributes attributes(std::span<const Piece> pieces, const Joined& joined) {
    Attributes list(pango_attr_list_new());
    add(list.get(), pango_attr_font_features_new(features(joined.text)), 0, joined.text.size());
    std::size_t from = 0;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const std::size_t to = joined.ends[i];
        if (pieces[i].weight == Weight::SemiBold) add(list.get(), pango_attr_weight_new(PANGO_WEIGHT_SEMIBOLD), from, to);
        if (pieces[i].slant == Slant::Italic) add(list.get(), pango_attr_style_new(PANGO_STYLE_ITALIC), from, to);
        from = to;
    }
    return list;
}

Description description(const TextStyle& style) {
    Description wanted(pango_font_description_new());
    pango_font_description_set_family_static(wanted.get(), "Inter,DejaVu Sans");
    pango_font_description_set_absolute_size(wanted.get(), std::round(style.size.in(point)*PANGO_SCALE));
    return wanted;
}

/// Collects glyphs into runs of one face and colour while a pen moves along the line.
class LineBuilder {
public:
    LineBuilder(const FontSet& fonts, std::span<const Piece> pieces, const Joined& joined, const TextStyle& style)
        : fonts_(fonts), pieces_(pieces), joined_(joined), style_(style) {}

    void add_item(PangoItem& item) {
        const char* start = joined_.text.c_str() + item.offset;
        if (item.analysis.level % 2 != 0) throw right_to_left(g_utf8_get_char(start));
        // Pango guesses the language of Greek and Cyrillic from the environment, and a font may draw other letters for it.
        item.analysis.language = pango_language_from_string("en");
        const Glyphs glyphs(pango_glyph_string_new());
        pango_shape_with_flags(start, item.length, joined_.text.c_str(), static_cast<int>(joined_.text.size()), &item.analysis,
                               glyphs.get(), PANGO_SHAPE_NONE);
        const frame::FaceId face = fonts_.face_of(item.analysis.font);
        for (int first = 0; first < glyphs->num_glyphs;) {
            int next = first + 1;
            while (next < glyphs->num_glyphs && glyphs->log_clusters[next] == glyphs->log_clusters[first]) ++next;
            const int end = next < glyphs->num_glyphs ? glyphs->log_clusters[next] : item.length;
            const std::size_t from = static_cast<std::size_t>(item.offset + glyphs->log_clusters[first]);
            add_cluster(face, item.analysis.font, {glyphs->glyphs + first, glyphs->glyphs + next}, from,
                        static_cast<std::size_t>(item.offset + end));
            first = next;
        }
    }

    Line finished() {
        if (unseen_bytes_ > 0) drop_unseen_end();
        for (std::size_t i = 0; i < line_.runs.size(); ++i) {
            frame::GlyphRun& run = line_.runs[i];
            const bool last = i + 1 == line_.runs.size();
            run.advance = std::max(Paper{}, (last ? ink_end_ : line_.runs[i + 1].origin.x) - run.origin.x);
        }
        line_.width = ink_end_;
        return std::move(line_);
    }

private:
    void drop_unseen_end() {
        frame::GlyphRun& last = line_.runs.back();
        last.text.resize(last.text.size() - unseen_bytes_);
        if (last.glyphs.empty()) line_.runs.pop_back();
    }

    void add_cluster(frame::FaceId face, PangoFont* font, std::span<const PangoGlyphInfo> glyphs, std::size_t from,
                     std::size_t to) {
        const std::string_view text(joined_.text.data() + from, to - from);
        frame::GlyphRun& run = run_for(face, font, from);
        std::uint32_t drawn = 0;
        for (const PangoGlyphInfo& glyph : glyphs) {
            if (glyph.glyph == PANGO_GLYPH_EMPTY) continue;
            if (glyph.glyph == 0 || glyph.glyph & PANGO_GLYPH_UNKNOWN_FLAG) throw missing_glyph(g_utf8_get_char(text.data()));
            run.glyphs.push_back({glyph.glyph, pen_ + from_pango(glyph.geometry.x_offset), from_pango(glyph.geometry.y_offset)});
            pen_ += from_pango(glyph.geometry.width);
            ++drawn;
        }
        run.text += text;
        unseen_bytes_ += static_cast<std::uint32_t>(text.size());
        if (drawn == 0) return;  // an invisible character is copied out with the next visible one
        run.clusters.push_back({unseen_bytes_, drawn});
        unseen_bytes_ = 0;
        if (text != " ") ink_end_ = pen_;
        pen_ += style_.letter_spacing;
    }

    frame::GlyphRun& run_for(frame::FaceId face, PangoFont* font, std::size_t from) {
        const auto piece = std::ranges::upper_bound(joined_.ends, from) - joined_.ends.begin();
        const Colour colour = pieces_[static_cast<std::size_t>(piece)].colour;
        if (!line_.runs.empty() && line_.runs.back().face == face && line_.runs.back().colour == colour) return line_.runs.back();
        if (unseen_bytes_ > 0) drop_unseen_end();
        unseen_bytes_ = 0;
        hb_font_extents_t extents{};
        hb_font_get_h_extents(pango_font_get_hb_font(font), &extents);
        frame::GlyphRun run;
        run.face = face;
        run.size = style_.size;
        run.colour = colour;
        run.origin = {pen_, Paper{}};
        run.ascent = from_pango(extents.ascender);
        run.descent = from_pango(-extents.descender);
        return line_.runs.emplace_back(std::move(run));
    }

    const FontSet& fonts_;
    std::span<const Piece> pieces_;
    const Joined& joined_;
    const TextStyle& style_;
    Line line_;
    Paper pen_, ink_end_;
    std::uint32_t unseen_bytes_ = 0;  ///< of characters without a glyph since the last cluster
};

}  // namespace

Line shape_line(const FontSet& fonts, std::span<const Piece> pieces, const TextStyle& style) {
    const Joined joined = join(pieces);
    if (joined.text.empty()) return {};
    pango_context_set_font_description(fonts.context(), description(style).get());
    const Attributes looks = attributes(pieces, joined);
    GList* items = pango_itemize_with_base_dir(fonts.context(), PANGO_DIRECTION_LTR, joined.text.c_str(), 0,
                                               static_cast<int>(joined.text.size()), looks.get(), nullptr);
    const auto free_items = [](GList* list) {
        g_list_free_full(list, [](gpointer item) { pango_item_free(static_cast<PangoItem*>(item)); });
    };
    const std::unique_ptr<GList, decltype(free_items)> owned(items, free_items);
    LineBuilder builder(fonts, pieces, joined, style);
    for (GList* item = items; item; item = item->next) builder.add_item(*static_cast<PangoItem*>(item->data));
    return builder.finished();
}

}  // namespace wayfolio::text
