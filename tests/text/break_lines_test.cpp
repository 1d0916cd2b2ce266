#include "support/text_helpers.hpp"
#include "text/break_lines.hpp"

#include <rapidcheck.h>
#include <catch2/catch.hpp>

#include <ctime>

using namespace wayfolio;
using namespace wayfolio::testing;
using units::point;

namespace {

std::vector<std::string> lines_of(const std::string& words, double width) {
    std::vector<std::string> texts;
    for (const text::Line& line : broken(words, width)) texts.push_back(text_of(line));
    return texts;
}

}  // namespace

TEST_CASE("a paragraph breaks at spaces and keeps every character") {
    const std::string words = "The axis was measured as found and again after the compensation table was loaded.";
    std::string all;
    for (const text::Line& line : broken(words, 120)) {
        CHECK(line.width <= point(120.01));
        all += text_of(line);
    }
    CHECK(all == words);
    CHECK(broken(words, 120).size() == 4);
}

TEST_CASE("number and unit, sign and number, and slashed units are never parted") {
    const std::string words = "a value of \u22125.2\u202f\u00b5m/m and k\u00a0=\u00a02 at 20\u00a0\u00b0C is 10\u00d720/3";
    for (double width = 55; width < 120; width += 3.7) {
        std::string all;
        for (const std::string& line : lines_of(words, width)) all += line + "\n";
        for (const char* whole : {"\u22125.2\u202f\u00b5m/m", "k\u00a0=\u00a02", "20\u00a0\u00b0C", "10\u00d720/3"})
            CHECK(all.find(whole) != std::string::npos);
    }
}

TEST_CASE("a hyphen between letters may end a line, one before a figure may not") {
    CHECK(lines_of("guard-band", 35) == std::vector<std::string>{"guard-", "band"});
    CHECK(lines_of("ISO 230-2", 30) == std::vector<std::string>{"ISO ", "230-2"});
}

TEST_CASE("a word wider than the line is broken inside, without a hyphen") {
    const auto lines = lines_of("XK-00000000000000000000000000000000000000000000000000000000001", 60);
    CHECK(lines.size() > 3);
    std::string all;
    for (const std::string& line : lines) all += line;
    CHECK(all == "XK-00000000000000000000000000000000000000000000000000000000001");
}

TEST_CASE("a line feed forces a break and an empty line stays") {
    CHECK(lines_of("one\n\ntwo", 200) == std::vector<std::string>{"one", "", "two"});
    CHECK(broken("", 200).empty());
}

TEST_CASE("wrapped text never exceeds the width and loses nothing") {
    CHECK(rc::check([] {
        const auto words = *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
            "a", "run-out", "5.2\u202f\u00b5m", "positioning", "\u00b1", "Δοκιμή", "µm/m", "compensation"));
        const double width = *rc::gen::inRange(60, 300);
        std::string text, all;
        for (const std::string& word : words) text += word + " ";
        for (const text::Line& line : broken(text, width)) {
            RC_ASSERT(line.width <= point(width + 0.01));
            all += text_of(line);
        }
        RC_ASSERT(all == text);
    }));
}

TEST_CASE("a line takes every word that fits") {
    CHECK(rc::check([] {
        const auto words = *rc::gen::nonEmpty(rc::gen::container<std::vector<std::string>>(
            rc::gen::element<std::string>("a", "AVA", "5.2\u202f\u00b5m", "To", "\u00b1", "WAVY", "compensation")));
        text::TextStyle style = body();
        style.letter_spacing = point(*rc::gen::element(-0.18, 0.0, 0.5));
        const double width = *rc::gen::inRange(70, 200);
        std::string text;
        for (const std::string& word : words) text += word + " ";
        const auto lines = broken(text, width, style);
        for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
            const std::string next = text_of(lines[i + 1]);
            RC_ASSERT(shaped(text_of(lines[i]) + next.substr(0, next.find(' ')), style).width > point(width));
        }
    }));
}

namespace {

/// The bytes [from, to) of the pieces.
std::vector<text::Piece> part_of(const std::vector<text::Piece>& pieces, std::size_t from, std::size_t to) {
    std::vector<text::Piece> part;
    std::size_t start = 0;
    for (const text::Piece& piece : pieces) {
        const std::size_t first = std::max(from, start), last = std::min(to, start + piece.text.size());
        if (first < last) part.push_back({piece.text.substr(first - start, last - first), piece.weight, piece.slant, piece.colour});
        start += piece.text.size();
    }
    return part;
}

void require_same(const text::Line& cut, const text::Line& alone) {
    const auto near = [](frame::Paper a, frame::Paper b) { return std::abs((a - b).in(point)) < 1e-9; };
    RC_ASSERT(near(cut.width, alone.width));
    RC_ASSERT(cut.runs.size() == alone.runs.size());
    for (std::size_t i = 0; i < cut.runs.size(); ++i) {
        const frame::GlyphRun &one = cut.runs[i], &other = alone.runs[i];
        RC_ASSERT(one.text == other.text && one.face == other.face && one.colour == other.colour);
        RC_ASSERT(near(one.origin.x, other.origin.x) && near(one.advance, other.advance) && near(one.ascent, other.ascent) &&
                  near(one.descent, other.descent));
        RC_ASSERT(one.clusters.size() == other.clusters.size() && one.glyphs.size() == other.glyphs.size());
        for (std::size_t k = 0; k < one.glyphs.size(); ++k)
            RC_ASSERT(one.glyphs[k].id == other.glyphs[k].id && near(one.glyphs[k].x, other.glyphs[k].x) &&
                      near(one.glyphs[k].y, other.glyphs[k].y));
    }
}

}  // namespace

TEST_CASE("a line cut out of the shaped paragraph is the line that shaping its words alone gives, in every look and script") {
    CHECK(rc::check([] {
        const auto words = *rc::gen::nonEmpty(rc::gen::container<std::vector<std::string>>(
            rc::gen::element<std::string>("AVA ", "To ", "T", "Y ", "run-out ", "5.2\u202f\u00b5m ", "\u00b1", "WAVY  ", "Δοκιμή ", "VА ",
                                          "f", "fi ", "1/7 ", "A", "\u2212")));
        std::vector<text::Piece> pieces;
        std::string all;
        for (std::size_t i = 0; i < words.size(); ++i) {
            pieces.push_back({words[i],
                              i % 3 == 1 ? text::Weight::SemiBold : text::Weight::Regular,
                              i % 5 == 2 ? text::Slant::Italic : text::Slant::Upright,
                              {}});
            all += words[i];
        }
        text::TextStyle style = body();
        style.letter_spacing = point(*rc::gen::element(-0.18, 0.0, 0.5));
        std::size_t from = 0;
        for (const text::Line& line : shaper().paragraph(pieces, style, point(*rc::gen::inRange(30, 200)))) {
            const std::size_t to = from + text_of(line).size();
            require_same(line, shaper().line(part_of(pieces, from, to), style));
            from = to;
        }
        RC_ASSERT(from == all.size());
    }));
}

namespace {

/// Processor time to break one text of `bytes`, shaped by a stand-in whose letters are all 5 pt wide.
double seconds_to_break(std::size_t bytes, const std::string& word) {
    std::string words;
    while (words.size() < bytes) words += word;
    const text::Piece piece{.text = words, .colour = {26, 26, 26}};
    const text::ShapeLine shape = [](std::span<const text::Piece> pieces) {
        text::Line line;
        frame::GlyphRun& run = line.runs.emplace_back();
        for (const text::Piece& one : pieces) run.text += one.text;
        constexpr double letter = 5;
        for (std::size_t i = 0; i < run.text.size(); ++i) {
            run.glyphs.push_back({1, point(letter * static_cast<double>(i)), {}});
            run.clusters.push_back({1, 1});
        }
        line.width = run.advance = point(letter * static_cast<double>(run.text.size()));
        return line;
    };
    const std::clock_t begun = std::clock();
    const auto lines = text::break_lines({&piece, 1}, point(300), {}, shape);
    CHECK(lines.size() > bytes / 70);
    return static_cast<double>(std::clock() - begun) / CLOCKS_PER_SEC;
}

}  // namespace

TEST_CASE("a text ten times as long takes about ten times as long to break, in words or as one word without an end") {
    for (const char* word : {"x", "word "}) {
        CAPTURE(word);
        const double some = std::min(seconds_to_break(40'000, word), seconds_to_break(40'000, word));
        const double many = std::min(seconds_to_break(400'000, word), seconds_to_break(400'000, word));
        // Squared it would be a hundred times.
        CHECK(many < 30 * some);
    }
}
