#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <future>

using namespace wayfolio;
using namespace wayfolio::testing;
using units::point;

namespace {

double width_of(const std::string& words) { return shaped(words).width.in(point); }

std::string failure(const std::string& words) {
    try {
        shaped(words);
    } catch (const text::FontFailed& failed) { return failed.what(); }
    return "";
}

const std::string& face_file(const frame::GlyphRun& run) { return shaper().fonts().at(run.face.index).file; }

}  // namespace

TEST_CASE("the private fonts are the six of fonts.json, in its order") {
    REQUIRE(shaper().fonts().size() == 6);
    CHECK(shaper().fonts()[0].file == "Inter-Regular.otf");
    CHECK(shaper().fonts()[5].file == "DejaVuSans-Bold.ttf");
    CHECK(shaper().fonts()[0].sha256.size() == 64);
}

TEST_CASE("a run covers its text: clusters add up to its bytes and its glyphs") {
    for (const frame::GlyphRun& run : shaped("A = 5.2\u202f\u00b5m, \u22124.20 \u2300 10\u00a0mm e\u0301").runs) {
        std::size_t bytes = 0, glyphs = 0;
        for (const frame::Cluster& cluster : run.clusters) bytes += cluster.bytes, glyphs += cluster.glyphs;
        CHECK(bytes == run.text.size());
        CHECK(glyphs == run.glyphs.size());
    }
}

TEST_CASE("all figures are equally wide, in every weight and slant") {
    // Inter 4.0 beta 7 has one figure in SemiBold three font units (of 2816) off the others: 0.01 pt at 9 pt.
    for (const char* figure : {"1", "2", "3", "4", "5", "6", "7", "8", "9"}) {
        CHECK(width_of(figure) == width_of("0"));
        for (auto weight : {text::Weight::Regular, text::Weight::SemiBold})
            for (auto slant : {text::Slant::Upright, text::Slant::Italic}) {
                CAPTURE(figure);
                CHECK(shaper().width(figure, body(), weight, slant).in(point) ==
                      Approx(shaper().width("0", body(), weight, slant).in(point)).margin(0.01));
            }
    }
}

TEST_CASE("a number is as wide as one of noughts, whatever stands beside its figures") {
    // What columns of numbers rely on: no figure is kerned with a sign, a decimal mark or a space.
    for (const char figure : {'1', '2', '3', '4', '5', '6', '7', '8', '9'})
        for (const std::string form : {"0.0", "0,0", "\u22120.00", "+0.0", "(0.0)", "0\u202f000.0", "\u00b100", "0 000"}) {
            std::string number = form;
            std::ranges::replace(number, '0', figure);
            CAPTURE(number);
            CHECK(width_of(number) == Approx(width_of(form)).margin(1e-9));
        }
}

TEST_CASE("letters are kerned and sizes scale without rounding") {
    CHECK(width_of("AV") < width_of("A") + width_of("V") - 0.2);
    text::TextStyle twice = body();
    twice.size = point(18);
    CHECK(shaped("Positioning", twice).width.in(point) == Approx(2 * width_of("Positioning")).margin(0.02));
}

TEST_CASE("data is not rewritten: 10x20 keeps its letter x") {
    const text::Line line = shaped("10x20");
    CHECK(text_of(line) == "10x20");
    CHECK(line.runs.at(0).glyphs.at(2).id == shaped("x").runs.at(0).glyphs.at(0).id);
}

TEST_CASE("Greek and Cyrillic are set in Inter, signs it lacks in DejaVu Sans") {
    for (const char* words : {"Μηχανή Δοκιμή", "Станок Журнал", "Ångström façade", "x\u1d62 a\u1d43"}) {
        const text::Line line = shaped(words);
        REQUIRE(line.runs.size() == 1);
        CHECK(face_file(line.runs[0]) == "Inter-Regular.otf");
    }
    CHECK(face_file(shaped("\u2300").runs.at(0)) == "DejaVuSans.ttf");
    const text::Piece bold{.text = "\u2300", .weight = text::Weight::SemiBold, .colour = {}};
    CHECK(face_file(shaper().line({&bold, 1}, body()).runs.at(0)) == "DejaVuSans-Bold.ttf");
}

TEST_CASE("a character that no private font has is an error that names it") {
    const std::string expected = "; expected characters that a private font has: Latin, Greek and Cyrillic letters, figures and signs";
    CHECK(failure("漢字") == "found the character \"漢\" (U+6F22, script Han)" + expected);
    CHECK(failure("abc あ") == "found the character \"あ\" (U+3042, script Hiragana)" + expected);
    CHECK(failure("\U0001F9ED") == "found the character \"\U0001F9ED\" (U+1F9ED)" + expected);
    CHECK(failure("a\u0001b") == "found the character (U+0001)" + expected);
    CHECK(failure("שלום") == "found the character \"ש\" (U+05E9, script Hebrew); expected text written from left to right");
    CHECK(failure("plain").empty());
}

TEST_CASE("pieces keep their looks and are shaped side by side") {
    const frame::Colour grey{92, 92, 92};
    const std::vector<text::Piece> pieces{{.text = "A", .slant = text::Slant::Italic, .colour = {}},
                                          {.text = " is ", .colour = {}},
                                          {.text = "outside", .weight = text::Weight::SemiBold, .colour = grey}};
    const text::Line line = shaper().line(pieces, body());
    REQUIRE(line.runs.size() == 3);
    CHECK(face_file(line.runs[0]) == "Inter-Italic.otf");
    CHECK(face_file(line.runs[1]) == "Inter-Regular.otf");
    CHECK(face_file(line.runs[2]) == "Inter-SemiBold.otf");
    CHECK(line.runs[2].colour == grey);
    CHECK(line.runs[1].origin.x == line.runs[0].advance);
    CHECK(line.width == line.runs[2].origin.x + line.runs[2].advance);
}

TEST_CASE("letter spacing stands between letters only") {
    text::TextStyle spaced = body();
    spaced.letter_spacing = point(1);
    CHECK(shaped("nnn", spaced).width.in(point) == Approx(width_of("nnn") + 2));
}

TEST_CASE("a trailing space stays in the text and out of the width") {
    CHECK(text_of(shaped("word ")) == "word ");
    CHECK(width_of("word ") == width_of("word"));
}

TEST_CASE("an invisible character is copied with its neighbour or dropped at the end") {
    CHECK(text_of(shaped("a\u2060b")) == "a\u2060b");
    CHECK(text_of(shaped("a\u2060")) == "a");
    CHECK(shaped("\u2060").runs.empty());
}

TEST_CASE("ascent and descent are the font's, whatever the letters") {
    const frame::GlyphRun low = shaped("x").runs.at(0), high = shaped("Äg").runs.at(0);
    CHECK(low.ascent == high.ascent);
    // hhea table of Inter 4.0 beta 7: ascender 2728, descender -680 of 2816 units.
    CHECK(low.ascent.in(point) == Approx(9 * 2728.0 / 2816).margin(0.01));
    CHECK(low.descent.in(point) == Approx(9 * 680.0 / 2816).margin(0.01));
}

namespace {

/// Glyphs of the first run, of which `text` is the beginning.
std::vector<frame::Glyph> first_glyphs(const std::string& text, text::Weight weight, text::Slant slant) {
    const text::Piece piece{.text = text, .weight = weight, .slant = slant, .colour = {}};
    std::vector<frame::Glyph> all;
    for (const frame::GlyphRun& run : shaper().line({&piece, 1}, body()).runs) all.insert(all.end(), run.glyphs.begin(), run.glyphs.end());
    return all;
}

std::string utf8(char32_t character) {
    std::string bytes;
    if (character < 0x80) return {static_cast<char>(character)};
    if (character < 0x800) return {static_cast<char>(0xC0 | character >> 6), static_cast<char>(0x80 | (character & 0x3F))};
    return {static_cast<char>(0xE0 | character >> 12), static_cast<char>(0x80 | (character >> 6 & 0x3F)),
            static_cast<char>(0x80 | (character & 0x3F))};
}

}  // namespace

TEST_CASE("where nothing combines, leaving composition out changes no glyph and no place") {
    // A Cyrillic letter at the end brings the features of composition back for the whole line.
    const auto check = [](char32_t character, text::Weight weight, text::Slant slant) {
        const std::string line = "fA" + utf8(character) + "i1 V" + utf8(character) + " ";
        try {
            const auto without = first_glyphs(line, weight, slant), with = first_glyphs(line + "\u0416", weight, slant);
            bool same = with.size() > without.size();
            for (std::size_t i = 0; same && i < without.size(); ++i)
                same = without[i].id == with[i].id && std::abs((without[i].x - with[i].x).in(point)) < 1e-9 && without[i].y == with[i].y;
            if (!same) FAIL_CHECK("U+" << std::hex << static_cast<std::uint32_t>(character) << " is shaped otherwise");
            return true;
        } catch (const text::FontFailed&) {
            return false;  // no private font has it
        }
    };
    std::size_t checked = 0;
    for (const auto& [first, last] : {std::pair(U'\u0021', U'\u02FF'), std::pair(U'\u2000', U'\u20CF'), std::pair(U'\u2100', U'\u22FF')})
        for (char32_t character = first; character <= last; ++character) {
            checked += check(character, text::Weight::Regular, text::Slant::Upright);
            check(character, text::Weight::SemiBold, text::Slant::Italic);
        }
    CHECK(checked > 900);
}

TEST_CASE("a second shaper sets the same text on a thread of its own") {
    const std::vector<text::Piece> pieces{{"E bidirectional 12.5 \u00b5m, ", text::Weight::Regular, text::Slant::Upright, {}},
                                          {"\u0394x", text::Weight::SemiBold, text::Slant::Italic, {}}};
    const text::Shaper own(input::data_folder() / "fonts");
    std::future<std::vector<text::Line>> beside =
        std::async(std::launch::async, [&] { return own.beside()->paragraph(pieces, body(), point(60)); });
    const std::vector<text::Line> here = own.paragraph(pieces, body(), point(60)), there = beside.get();
    REQUIRE(here.size() == there.size());
    REQUIRE(here.size() > 1);
    for (std::size_t i = 0; i < here.size(); ++i) {
        CHECK(here[i].width == there[i].width);
        REQUIRE(here[i].runs.size() == there[i].runs.size());
        for (std::size_t run = 0; run < here[i].runs.size(); ++run) {
            CHECK(here[i].runs[run].face == there[i].runs[run].face);
            CHECK(here[i].runs[run].text == there[i].runs[run].text);
        }
    }
    CHECK(own.beside() == own.beside());
    CHECK(text::Shaper(WAYFOLIO_SOURCE_FOLDER "/fonts", text::Threads::One).beside() == nullptr);
}

TEST_CASE("a placed line moves whole; upwards it is turned about its start") {
    const text::Line line = shaped("AB");
    const auto moved = text::placed(line, {point(100), point(50)});
    CHECK(moved[0].glyphs[1].x == line.runs[0].glyphs[1].x + point(100));
    CHECK(moved[0].origin.y == point(50));
    const auto turned = text::placed_upwards(line, {point(100), point(50)});
    CHECK(turned[0].rotated);
    CHECK(turned[0].glyphs[1].x == point(100));
    CHECK(turned[0].glyphs[1].y == point(50) - line.runs[0].glyphs[1].x);
}

TEST_CASE("a missing fonts folder is an error that names the file") {
    const text::Shaper shaper("/nonexistent");
    CHECK_THROWS_WITH(shaper.width("1", body()),
                      Catch::Contains("/nonexistent/Inter-Regular.otf") && Catch::Contains("missing"));
}
