#include "support/text_helpers.hpp"

#include <rapidcheck.h>
#include <catch2/catch.hpp>

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
    rc::check([] {
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
    });
}

TEST_CASE("a line takes every word that fits") {
    rc::check([] {
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
    });
}
