#include "text/break_lines.hpp"

#include <glib.h>

#include <algorithm>

namespace wayfolio::text {

namespace {

/// Shaping a part of a line again may move its end by a rounding error of the font's units.
constexpr Paper hair = units::point(0.002);

std::string joined_text(std::span<const Piece> pieces) {
    std::string text;
    for (const Piece& piece : pieces) text += piece.text;
    return text;
}

std::vector<Piece> slice(std::span<const Piece> pieces, std::size_t from, std::size_t to) {
    std::vector<Piece> part;
    std::size_t start = 0;
    for (const Piece& piece : pieces) {
        const std::size_t first = std::max(from, start), last = std::min(to, start + piece.text.size());
        if (first < last)
            part.push_back({piece.text.substr(first - start, last - first), piece.weight, piece.slant, piece.colour});
        start += piece.text.size();
    }
    return part;
}

bool is_letter_at(const std::string& text, std::size_t at) {
    return at < text.size() && g_unichar_isalpha(g_utf8_get_char(text.data() + at));
}

bool is_letter_before(const std::string& text, std::size_t at) {
    const char* before = g_utf8_find_prev_char(text.data(), text.data() + at);
    return before && g_unichar_isalpha(g_utf8_get_char(before));
}

/// The byte offsets at which a line may start.
std::vector<std::size_t> break_places(const std::string& text) {
    std::vector<std::size_t> places;
    for (std::size_t i = 1; i < text.size(); ++i) {
        const bool after_space = text[i - 1] == ' ' && text[i] != ' ';
        const bool after_hyphen = text[i - 1] == '-' && is_letter_before(text, i - 1) && is_letter_at(text, i);
        if (after_space || after_hyphen) places.push_back(i);
    }
    places.push_back(text.size());
    return places;
}

/// A cluster of the unbroken text: its bytes, its left edge, and how far the text reaches with it when spaces that hang over are
/// left out.
struct Measured {
    std::size_t first, last;
    Paper left, reach;
};

std::vector<Measured> measure(const Line& line) {
    std::vector<Measured> measured;
    std::size_t byte = 0;
    Paper reach;
    for (const frame::GlyphRun& run : line.runs) {
        std::size_t glyph = 0, run_byte = 0;
        for (const frame::Cluster& cluster : run.clusters) {
            const Paper left = run.glyphs.at(glyph).x;
            glyph += cluster.glyphs;
            const Paper right = glyph < run.glyphs.size() ? run.glyphs[glyph].x : run.origin.x + run.advance;
            if (run.text.compare(run_byte, cluster.bytes, " ") != 0) reach = right;
            measured.push_back({byte, byte + cluster.bytes, left, reach});
            run_byte += cluster.bytes;
            byte += cluster.bytes;
        }
    }
    return measured;
}

struct Broken {
    Line line;
    std::size_t end;
};

/// A text to be broken: measured once as a whole, then shaped line by line.
struct Paragraph {
    std::span<const Piece> pieces;
    Paper width;
    const ShapeLine& shape;
    std::vector<Measured> clusters;

    [[nodiscard]] Paper left_at(std::size_t byte) const {
        const auto cluster = std::ranges::lower_bound(clusters, byte, {}, &Measured::first);
        return cluster == clusters.end() ? Paper{} : cluster->left;
    }
    [[nodiscard]] Paper reach_before(std::size_t byte) const {
        const auto after = std::ranges::upper_bound(clusters, byte, {}, &Measured::last);
        return after == clusters.begin() ? Paper{} : std::prev(after)->reach;
    }

    /// The longest line from `from` to one of `places` that fits. The whole text's measure says where to look, and shaping the
    /// part decides: letters at its ends lose their kerning.
    [[nodiscard]] std::optional<Broken> longest(std::size_t from, std::span<const std::size_t> places) const {
        constexpr Paper slack = units::point(1);
        const Paper farthest = left_at(from) + width + slack;
        auto place = std::ranges::partition_point(places, [&](std::size_t to) { return reach_before(to) <= farthest; });
        while (place != places.begin()) {
            --place;
            Line tried = shape(slice(pieces, from, *place));
            if (tried.width <= width + hair) return Broken{std::move(tried), *place};
        }
        return std::nullopt;
    }

    /// A part of the word from `from` to `end` that is wider than the line: at least one cluster.
    [[nodiscard]] Broken part_of_word(std::size_t from, std::size_t end) const {
        std::vector<std::size_t> inside;
        for (const Measured& cluster : clusters)
            if (cluster.last > from && cluster.last < end) inside.push_back(cluster.last);
        inside.push_back(end);
        if (auto found = longest(from, inside)) return std::move(*found);
        return {shape(slice(pieces, from, inside.front())), inside.front()};
    }
};

void break_one(std::span<const Piece> pieces, Paper width, const ShapeLine& shape, std::vector<Line>& lines) {
    const std::string text = joined_text(pieces);
    Line whole = text.empty() ? Line{} : shape(pieces);
    if (whole.width <= width + hair) {
        lines.push_back(std::move(whole));
        return;
    }
    const Paragraph paragraph{pieces, width, shape, measure(whole)};
    const std::vector<std::size_t> places = break_places(text);
    for (std::size_t from = 0; from < text.size();) {
        const auto next = std::ranges::upper_bound(places, from);
        std::optional<Broken> found = paragraph.longest(from, {next, places.end()});
        if (!found) found = paragraph.part_of_word(from, *next);
        from = found->end;
        lines.push_back(std::move(found->line));
    }
}

}  // namespace

std::vector<Line> break_lines(std::span<const Piece> pieces, Paper width, const ShapeLine& shape) {
    std::vector<Line> lines;
    const std::string text = joined_text(pieces);
    if (text.empty()) return lines;
    for (std::size_t from = 0; from <= text.size();) {
        const std::size_t end = std::min(text.find('\n', from), text.size());
        break_one(slice(pieces, from, end), width, shape, lines);
        from = end + 1;
    }
    return lines;
}

}  // namespace wayfolio::text
