#include "text/break_lines.hpp"

#include <glib.h>

#include <algorithm>
#include <utility>

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

/// Whether all letters are Latin: else a sign without script of its own (a minus, a bracket) is shaped with the letters before it,
/// and a line that begins with it would be shaped otherwise alone.
bool all_latin(const std::string& text) {
    for (const char* at = text.c_str(); *at != '\0'; at = g_utf8_next_char(at)) {
        const GUnicodeScript script = g_unichar_get_script(g_utf8_get_char(at));
        if (script != G_UNICODE_SCRIPT_LATIN && script != G_UNICODE_SCRIPT_COMMON && script != G_UNICODE_SCRIPT_INHERITED) return false;
    }
    return true;
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

/// A cluster of the unbroken text: its bytes, its left edge, how far the text reaches with it when spaces that hang over are left out, and
/// where it stands in the line: its run, its place among the run's clusters, its first glyph and byte there.
struct Measured {
    std::size_t first, last;
    Paper left, reach;
    std::size_t run, cluster, glyph, run_byte;
};

std::vector<Measured> measure(const Line& line) {
    std::vector<Measured> measured;
    std::size_t byte = 0;
    Paper reach;
    for (std::size_t at = 0; at < line.runs.size(); ++at) {
        const frame::GlyphRun& run = line.runs[at];
        std::size_t glyph = 0, run_byte = 0;
        for (std::size_t i = 0; i < run.clusters.size(); ++i) {
            const frame::Cluster& cluster = run.clusters[i];
            const std::size_t after = glyph + cluster.glyphs;
            const Paper right = after < run.glyphs.size() ? run.glyphs[after].x : run.origin.x + run.advance;
            if (run.text.compare(run_byte, cluster.bytes, " ") != 0) reach = right;
            measured.push_back({byte, byte + cluster.bytes, run.glyphs.at(glyph).x, reach, at, i, glyph, run_byte});
            glyph = after;
            run_byte += cluster.bytes;
            byte += cluster.bytes;
        }
    }
    return measured;
}

/// The clusters of `whole` whose bytes lie in [from, to), as a line of their own. Exact where both ends stand beside a space: kerning
/// with a neighbour moves what follows it (OpenType GPOS pair adjustment), so that a letter after a space stands as at a line's start.
class Cutter {
public:
    Cutter(const Line& whole, std::span<const Measured> clusters, std::size_t from, std::size_t to, Paper letter_spacing)
        : whole_(whole), letter_spacing_(letter_spacing) {
        // Only those of the line are looked at: a long text has thousands of lines.
        for (auto one = std::ranges::lower_bound(clusters, from, {}, &Measured::first); one != clusters.end() && one->last <= to; ++one)
            take(*one);
        for (std::size_t i = 0; i < line_.runs.size(); ++i) {
            const bool last = i + 1 == line_.runs.size();
            line_.runs[i].advance = std::max(Paper{}, (last ? ink_end_ : line_.runs[i + 1].origin.x) - line_.runs[i].origin.x);
        }
        line_.width = ink_end_;
    }
    [[nodiscard]] Line taken() { return std::move(line_); }

private:
    void take(const Measured& at) {
        const frame::GlyphRun& run = whole_.runs[at.run];
        const frame::Cluster& cluster = run.clusters[at.cluster];
        const std::size_t end = at.glyph + cluster.glyphs;
        const bool ends_whole = at.run + 1 == whole_.runs.size() && end == run.glyphs.size();
        const Paper next = end < run.glyphs.size() ? run.glyphs[end].x : run.origin.x + run.advance;
        if (line_.runs.empty()) left_ = at.left;
        if (line_.runs.empty() || run_ != at.run) begin_run(run, at.glyph == 0 ? run.origin.x : at.left);
        run_ = at.run;
        frame::GlyphRun& into = line_.runs.back();
        for (std::size_t i = at.glyph; i < end; ++i) into.glyphs.push_back({run.glyphs[i].id, run.glyphs[i].x - left_, run.glyphs[i].y});
        into.text.append(run.text, at.run_byte, cluster.bytes);
        into.clusters.push_back(cluster);
        if (into.text.back() != ' ' || cluster.bytes != 1) ink_end_ = next - left_ - (ends_whole ? Paper{} : letter_spacing_);
    }

    void begin_run(const frame::GlyphRun& run, Paper at) {
        frame::GlyphRun begun;
        begun.face = run.face;
        begun.size = run.size;
        begun.colour = run.colour;
        begun.origin = {at - left_, run.origin.y};
        begun.ascent = run.ascent;
        begun.descent = run.descent;
        line_.runs.push_back(std::move(begun));
    }

    const Line& whole_;
    Paper letter_spacing_;
    Line line_;
    std::size_t run_ = 0;  ///< of `whole_` that was taken from last
    Paper left_, ink_end_;
};

struct Broken {
    Line line;
    std::size_t end;
};

/// A text to be broken: shaped once as a whole, then cut at spaces; what is cut elsewhere is shaped again.
struct Paragraph {
    std::span<const Piece> pieces;
    const std::string& text;
    const Line& whole;
    Paper width, letter_spacing;
    const ShapeLine& shape;
    std::vector<Measured> clusters;
    bool may_cut;
    static constexpr Paper slack = units::point(1);  ///< kerning may move the end of a line by less

    [[nodiscard]] bool beside_space(std::size_t byte) const { return byte == 0 || byte == text.size() || text[byte - 1] == ' '; }
    [[nodiscard]] Line part(std::size_t from, std::size_t to) const {
        return may_cut && beside_space(from) && beside_space(to) ? Cutter(whole, clusters, from, to, letter_spacing).taken()
                                                                 : shape(slice(pieces, from, to));
    }

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
        const Paper farthest = left_at(from) + width + slack;
        auto place = std::ranges::partition_point(places, [&](std::size_t to) { return reach_before(to) <= farthest; });
        while (place != places.begin()) {
            --place;
            Line tried = part(from, *place);
            if (tried.width <= width + hair) return Broken{std::move(tried), *place};
        }
        return std::nullopt;
    }

    /// A part of the word from `from` to `end` that is wider than the line: at least one cluster.
    [[nodiscard]] Broken part_of_word(std::size_t from, std::size_t end) const {
        const Paper farthest = left_at(from) + width;
        std::vector<std::size_t> inside;
        for (auto cluster = std::ranges::upper_bound(clusters, from, {}, &Measured::last);
             cluster != clusters.end() && cluster->last < end && (inside.empty() || cluster->left <= farthest + slack); ++cluster)
            inside.push_back(cluster->last);
        inside.push_back(end);
        if (auto found = longest(from, inside)) return std::move(*found);
        return {shape(slice(pieces, from, inside.front())), inside.front()};
    }
};

void break_one(std::span<const Piece> pieces, Paper width, Paper letter_spacing, const ShapeLine& shape, std::vector<Line>& lines) {
    const std::string text = joined_text(pieces);
    Line whole = text.empty() ? Line{} : shape(pieces);
    if (whole.width <= width + hair) {
        lines.push_back(std::move(whole));
        return;
    }
    const Paragraph paragraph{pieces, text, whole, width, letter_spacing, shape, measure(whole), all_latin(text)};
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

std::vector<Line> break_lines(std::span<const Piece> pieces, Paper width, Paper letter_spacing, const ShapeLine& shape) {
    std::vector<Line> lines;
    const std::string text = joined_text(pieces);
    if (text.empty()) return lines;
    for (std::size_t from = 0; from <= text.size();) {
        const std::size_t end = std::min(text.find('\n', from), text.size());
        break_one(slice(pieces, from, end), width, letter_spacing, shape, lines);
        from = end + 1;
    }
    return lines;
}

}  // namespace wayfolio::text
