#pragma once
#include "text/shaper.hpp"

#include <array>
#include <functional>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace wayfolio::text {

/// Numbers as lines, put together from their characters: most lines of a report are numbers, each another, and the characters are the same.
/// Digits, point and minus of the private fonts stand beside each other without kerning and change no form there; a test shapes every pair.
class NumberLines {
public:
    using Shape = std::function<Line(std::span<const Piece>, const TextStyle&)>;

    /// The line of one piece of digits, points and minus signs, until the next one is asked for; null for any other text.
    /// @param shape shapes what was not shaped before: one character at a time
    const Line* line(std::span<const Piece> pieces, const TextStyle& style, const Shape& shape);

private:
    static constexpr std::size_t characters = 12;
    /// Characters of one look, as far as they were asked for.
    struct Look {
        Piece piece;  ///< without text
        Paper size, letter_spacing;
        std::array<std::optional<Line>, characters> shaped;
    };
    Look& look_of(const Piece& piece, const TextStyle& style);
    bool find_places(std::string_view text);

    std::vector<Look> looks_;
    // Used again and again: making room anew for each number took longer than putting it together.
    std::vector<std::size_t> places_;
    Line line_;
};

}  // namespace wayfolio::text
