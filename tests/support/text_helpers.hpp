#pragma once
#include "input/data_folder.hpp"
#include "text/shaper.hpp"

#include <string>

/// A shaper on the build tree's fonts and short ways to shape with it.
namespace wayfolio::testing {

inline text::Shaper& shaper() {
    static text::Shaper one(input::data_folder() / "fonts");
    return one;
}

inline text::TextStyle body() { return {.size = units::point(9), .leading = units::point(12), .letter_spacing = {}}; }

inline text::Line shaped(const std::string& words, const text::TextStyle& style = body()) {
    const text::Piece piece{.text = words, .colour = {}};
    return shaper().line({&piece, 1}, style);
}

inline std::vector<text::Line> broken(const std::string& words, double width, const text::TextStyle& style = body()) {
    const text::Piece piece{.text = words, .colour = {}};
    return shaper().paragraph({&piece, 1}, style, units::point(width));
}

inline std::string text_of(const text::Line& line) {
    std::string all;
    for (const frame::GlyphRun& run : line.runs) all += run.text;
    return all;
}

}  // namespace wayfolio::testing
