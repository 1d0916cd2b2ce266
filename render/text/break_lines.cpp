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
        if (first < last) part.push_back({piece.text.substr(first - start, last - first), piece.weight, piece.slant, piece.colour});
        start += piece.text.size();
    }
    return part;
}

bool is_letter_at(const std::string& text, std::size_t at) { return at < text.size() && g_unichar_isalpha(g_utf8_get_char(text.data() + at)); }

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

/// Where each cluster of an unbroken line starts in the text, to break a word that is wider than the line.
std::vector<std::size_t> cluster_places(const Line& line, std::size_t offset) {
    std::vector<std::size_t> places;
    for (const frame::GlyphRun& run : line.runs)
        for (const frame::Cluster& cluster : run.clusters) places.push_back(offset += cluster.bytes);
    return places;
}

struct Broken {
    Line line;
    std::size_t end;
};

/// The longest line that starts at `from`, ends at one of `places` and fits. Width grows with length, so halving finds it.
std::optional<Broken> longest(std::span<const Piece> pieces, std::size_t from, std::span<const std::size_t> places, Paper width,
                              const ShapeLine& shape) {
    std::optional<Broken> best;
    std::size_t low = 0, high = places.size();
    while (low < high) {
        const std::size_t middle = (low + high) / 2;
        Line tried = shape(slice(pieces, from, places[middle]));
        if (tried.width <= width + hair) {
            best = Broken{std::move(tried), places[middle]};
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return best;
}

void break_one(std::span<const Piece> pieces, Paper width, const ShapeLine& shape, std::vector<Line>& lines) {
    const std::string text = joined_text(pieces);
    if (text.empty()) {
        lines.emplace_back();
        return;
    }
    const std::vector<std::size_t> places = break_places(text);
    for (std::size_t from = 0; from < text.size();) {
        const auto next = std::ranges::upper_bound(places, from);
        std::optional<Broken> found = longest(pieces, from, {next, places.end()}, width, shape);
        if (!found) {
            const Line word = shape(slice(pieces, from, *next));
            const std::vector<std::size_t> inside = cluster_places(word, from);
            found = longest(pieces, from, inside, width, shape);
            if (!found) found = Broken{shape(slice(pieces, from, inside.front())), inside.front()};
        }
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
