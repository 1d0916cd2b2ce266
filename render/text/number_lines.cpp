#include "text/number_lines.hpp"

#include <algorithm>
#include <string_view>

namespace wayfolio::text {

namespace {

constexpr std::array<std::string_view, 12> alphabet{"0", "1", "2", "3", "4", "5", "6", "7", "8", "9", ".", "\u2212"};

/// The place in the alphabet of the character that a text begins with.
std::optional<std::size_t> first_of(std::string_view text) {
    if (text[0] >= '0' && text[0] <= '9') return static_cast<std::size_t>(text[0] - '0');
    for (std::size_t i = 10; i < alphabet.size(); ++i)
        if (text.starts_with(alphabet[i])) return i;
    return std::nullopt;
}

bool is_one_glyph(const Line& line) {
    return line.runs.size() == 1 && line.runs[0].glyphs.size() == 1 && line.runs[0].clusters.size() == 1;
}

/// Takes over what a character shares with those behind it.
void begin(Line& line, const Line& character) {
    line.runs.resize(1);
    frame::GlyphRun& run = line.runs[0];
    const frame::GlyphRun& first = character.runs[0];
    run.face = first.face;
    run.colour = first.colour;
    run.size = first.size;
    run.ascent = first.ascent;
    run.descent = first.descent;
    run.glyphs.clear();
    run.clusters.clear();
    run.text.clear();
}

/// Adds a character behind the others, as shape_line() does.
void append(Line& line, const Line& character, Paper letter_spacing) {
    frame::GlyphRun& run = line.runs[0];
    const frame::GlyphRun& added = character.runs[0];
    const Paper pen = run.glyphs.empty() ? Paper{} : line.width + letter_spacing;
    frame::Glyph glyph = added.glyphs[0];
    glyph.x = pen + glyph.x;
    run.glyphs.push_back(glyph);
    run.clusters.push_back(added.clusters[0]);
    run.text += added.text;
    line.width = pen + character.width;
    run.advance = line.width;
}

}  // namespace

/// The places in the alphabet of all characters. @return whether each is part of it
bool NumberLines::find_places(std::string_view text) {
    places_.clear();
    while (!text.empty()) {
        const auto place = first_of(text);
        if (!place) return false;
        places_.push_back(*place);
        text.remove_prefix(alphabet[*place].size());
    }
    return !places_.empty();
}

NumberLines::Look& NumberLines::look_of(const Piece& piece, const TextStyle& style) {
    constexpr std::size_t most_looks = 64;  // a layout has some twenty; a service may draw many layouts
    const auto same = [&](const Look& look) {
        return look.size == style.size && look.piece.weight == piece.weight && look.piece.slant == piece.slant &&
               look.piece.colour == piece.colour && look.letter_spacing == style.letter_spacing;
    };
    const auto known = std::ranges::find_if(looks_, same);
    if (known != looks_.end()) return *known;
    if (looks_.size() >= most_looks) looks_.clear();
    return looks_.emplace_back(
        Look{{"", piece.weight, piece.slant, piece.colour}, style.size, style.letter_spacing, {}});
}

const Line* NumberLines::line(std::span<const Piece> pieces, const TextStyle& style, const Shape& shape) {
    if (pieces.size() != 1 || !find_places(pieces[0].text)) return nullptr;
    Look& look = look_of(pieces[0], style);
    const Line* first = nullptr;
    for (const std::size_t place : places_) {
        std::optional<Line>& character = look.shaped[place];
        if (!character) {
            Piece alone = look.piece;
            alone.text = alphabet[place];
            character = shape({&alone, 1}, style);
        }
        if (!is_one_glyph(*character)) return nullptr;
        if (first == nullptr) begin(line_, *(first = &*character));
        if (character->runs[0].face != first->runs[0].face) return nullptr;
        append(line_, *character, style.letter_spacing);
    }
    return &line_;
}

}  // namespace wayfolio::text
