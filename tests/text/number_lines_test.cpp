#include "text/number_lines.hpp"
#include "input/data_folder.hpp"
#include "text/font_set.hpp"
#include "text/shape_line.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::text;
using units::point;

namespace {

const std::vector<std::string> alphabet{"0", "1", "2", "3", "4", "5", "6", "7", "8", "9", ".", "\u2212"};

/// Everything of a line that is drawn, copied out or measured.
std::string all_of(const Line& line) {
    std::string text = std::to_string(line.width.in(point)) + "|";
    for (const frame::GlyphRun& run : line.runs) {
        text += run.text + " " + std::to_string(run.face.index) + " " + std::to_string(run.colour.red);
        for (const Paper length : {run.size, run.origin.x, run.origin.y, run.advance, run.ascent, run.descent})
            text += " " + std::to_string(length.in(point));
        for (const frame::Glyph& glyph : run.glyphs)
            text += " " + std::to_string(glyph.id) + ":" + std::to_string(glyph.x.in(point)) + ":" + std::to_string(glyph.y.in(point));
        for (const auto& [bytes, glyphs] : run.clusters) text += " " + std::to_string(bytes) + "/" + std::to_string(glyphs);
    }
    return text;
}

/// Both ways, for one text in one look.
struct BothWays {
    const FontSet fonts{(input::data_folder() / "fonts").string()};
    NumberLines numbers;

    void check(const std::string& text, Piece piece, const TextStyle& style) {
        piece.text = text;
        const auto shape = [&](std::span<const Piece> some, const TextStyle& look) { return shape_line(fonts, some, look); };
        const Line* const number = numbers.line({&piece, 1}, style, shape);
        REQUIRE(number);
        const Line whole = shape_line(fonts, {&piece, 1}, style);
        CHECK(all_of(*number) == all_of(whole));
        CHECK(number->width == whole.width);
        for (std::size_t i = 0; i < whole.runs.at(0).glyphs.size(); ++i)
            CHECK(number->runs.at(0).glyphs.at(i).x == whole.runs[0].glyphs[i].x);
    }
};

}  // namespace

TEST_CASE("every pair of characters of a number stands as when it is shaped as one, in each face, so that numbers are put together") {
    BothWays both;
    const Weight weight = GENERATE(Weight::Regular, Weight::SemiBold);
    const Slant slant = GENERATE(Slant::Upright, Slant::Italic);
    const Piece look{.text = "", .weight = weight, .slant = slant, .colour = {200, 0, 0}};
    for (const double size : {6.5, 7.3, 10.0, 17.0})
        for (const std::string& first : alphabet) {
            both.check(first, look, {point(size), point(12), {}});
            for (const std::string& second : alphabet) both.check(first + second, look, {point(size), point(12), {}});
        }
}

TEST_CASE("numbers that are put together are bit for bit those that are shaped as one, with letters apart, too") {
    BothWays both;
    for (const double apart : {0.0, 0.12, 1.0 / 3})
        for (const char* text : {"\u22120.0", "1234567890.0987654321", "3.14", "\u22124.20", "...", "\u2212\u2212", "11.71", "250.000"})
            both.check(text, {.text = ""}, {point(8.2), point(12), point(apart)});
}

TEST_CASE("what is no number is not put together") {
    NumberLines numbers;
    const auto never = [](std::span<const Piece>, const TextStyle&) -> Line { throw std::logic_error("shaped"); };
    const TextStyle style{point(8), point(12), {}};
    for (const char* text : {"", " ", "1 2", "1,5", "1e5", "\u00b5", "1\u2009000", "-1", "\xE2\x88", "x"}) {
        const Piece piece{.text = text};
        CHECK_FALSE(numbers.line({&piece, 1}, style, never));
    }
    const std::vector<Piece> two(2, Piece{.text = "1"});
    CHECK_FALSE(numbers.line(two, style, never));
    CHECK_FALSE(numbers.line({}, style, never));
}
