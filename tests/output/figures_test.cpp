#include "input/encoding.hpp"
#include "output/output.hpp"
#include "output/pdf/srgb_profile.hpp"
#include "support/golden.hpp"
#include "support/pixels.hpp"
#include "support/sample_pages.hpp"

#include <catch2/catch.hpp>

#include <regex>
#include <set>

using namespace wayfolio;
using namespace wayfolio::testing;
using support::run;
using support::TemporaryFolder;

namespace {

const output::Metadata about_figure{.title = "Deviation <X>", .author = "", .subject = "", .keywords = "", .created = ""};

std::string svg_of(const frame::Frame& frame) { return output::svg(frame, about_figure, shaper()); }

std::set<std::string> ids_of(const std::string& svg) {
    static const std::regex id(" id=\"([^\"]*)\"");
    std::set<std::string> found;
    for (std::sregex_iterator at(svg.begin(), svg.end(), id), end; at != end; ++at) CHECK(found.insert((*at)[1]).second);  // each once
    return found;
}

}  // namespace

TEST_CASE("every id of an SVG figure is used and every reference resolves") {
    frame::Frame clipped = one_figure();
    std::get<frame::Group>(clipped.items.front()).clip = box(0, 0, 200, 100);
    const std::string svg = svg_of(clipped);
    std::set<std::string> references;
    for (const char* pattern : {"href=\"#([^\"]*)\"", "url\\(#([^)]*)\\)", "labelledby=\"([^ ]*) ", "labelledby=\"[^ ]* ([^\"]*)\"",
                                "\\{#([^ ]*) \\{"}) {
        const std::regex reference(pattern);
        std::set<std::string> found;
        for (std::sregex_iterator at(svg.begin(), svg.end(), reference), end; at != end; ++at) found.insert((*at)[1]);
        CHECK_FALSE(found.empty());
        references.insert(found.begin(), found.end());
    }
    CHECK(references == ids_of(svg));
}

TEST_CASE("figures that differ in anything have no id in common, and the same figure has the same ids") {
    frame::Frame other_curve = one_figure();
    other_curve.items.emplace_back(rule(0, 0, 10, 10));
    output::Metadata other_source = about_figure;
    other_source.identifier = "sha256:0";
    const std::vector<std::set<std::string>> all{ids_of(svg_of(one_figure())), ids_of(svg_of(other_curve)),
                                                 ids_of(output::svg(one_figure(), other_source, shaper()))};
    std::set<std::string> together;
    std::size_t count = 0;
    for (const auto& ids : all) {
        CHECK(ids.size() >= 8);  // title, description, drawing, glyphs
        together.insert(ids.begin(), ids.end());
        count += ids.size();
    }
    CHECK(together.size() == count);
    CHECK(ids_of(svg_of(one_figure())) == all.front());
}

TEST_CASE("pictures stand in an SVG as they were given") {
    const std::string png = output::png({units::point(4), units::point(4), "", {}}, shaper());
    const frame::Image image{box(10, 10, 50, 20), frame::Image::Format::Png, std::make_shared<const std::string>(png)};
    const std::string svg = svg_of({units::point(100), units::point(50), "", {image}});
    CHECK(svg.find("<image x=\"10\" y=\"10\" width=\"50\" height=\"20\" xlink:href=\"data:image/png;base64," + input::base64(png) +
                   "\"/>") != std::string::npos);
    CHECK(input::decoded_base64(input::base64(png)) == png);
}

TEST_CASE("an SVG figure is well-formed, titled and described, without script or outside reference") {
    const TemporaryFolder folder;
    const std::string svg = svg_of(one_figure());
    CHECK(run("python3 -c 'import sys, xml.dom.minidom; xml.dom.minidom.parse(sys.argv[1])' " + folder.file("f.svg", svg)).code == 0);
    CHECK(std::regex_search(svg, std::regex("<title id=\"[a-z]{8}-title\">Deviation &lt;X&gt;</title>")));
    CHECK(svg.find("it falls to \u22124.2 \u00b5m near 0.8 m.</desc>") != std::string::npos);
    CHECK(svg.find("role=\"img\"") != std::string::npos);
    CHECK(svg.find("<script") == std::string::npos);
    CHECK(svg.find("href=\"http") == std::string::npos);
}

TEST_CASE("an SVG figure's words can be selected where they are seen") {
    const std::string svg = svg_of(one_figure());
    CHECK(
        svg.find(
            "<text x=\"110\" y=\"102\" font-size=\"7.5\" textLength=\"18.228\">X / m</text>") !=
        std::string::npos);
    CHECK(svg.find("transform=\"rotate(-90 14 60)\"") != std::string::npos);
}

TEST_CASE("SVG and PNG show the same picture") {
    const TemporaryFolder folder;
    const std::string png = folder.file("ours.png", output::png(one_figure(), shaper()));
    const std::string svg = folder.file("f.svg", svg_of(one_figure())), other = folder / "other.png";
    REQUIRE(run("rsvg-convert -d 150 -p 150 -b white -o " + other + " " + svg).code == 0);
    const Pixels ours = read_png(png), theirs = read_png(other);
    REQUIRE(ours.width == theirs.width);
    REQUIRE(ours.height == theirs.height);
    // Cairo writes glyph outlines in 1/64 pt: single edge pixels of letters may differ a little.
    CHECK(share_of_pixels_that_differ(ours, theirs, /*by_more_than=*/48) < 0.001);
}

TEST_CASE("a PNG has the frame's size at its resolution, a white ground and ink on it") {
    const TemporaryFolder folder;
    const Pixels pixels = read_png(folder.file("f.png", output::png(one_figure(), shaper(), 144)));
    CHECK(pixels.width == 500);
    CHECK(pixels.height == 240);
    CHECK(pixels.red_at(0, 0) == 255);
    // The axis line, ink 26, 0.5 pt at y = 90 pt: one pixel wide over two rows, so half ink and half ground.
    CHECK(pixels.red_at(250, 180) == Approx((26 + 255) / 2.0).margin(1));
}

TEST_CASE("the sRGB profile is as long as it says and its primaries add up to white") {
    const std::string profile = output::srgb_profile();
    const auto number = [&](std::size_t at) {
        std::uint32_t value = 0;
        for (std::size_t i = 0; i < 4; ++i) value = value << 8 | static_cast<unsigned char>(profile[at + i]);
        return value;
    };
    const auto tag = [&](const std::string& name) {
        for (std::size_t at = 132; at < 132 + 12 * number(128); at += 12)
            if (profile.compare(at, 4, name) == 0) return static_cast<std::size_t>(number(at + 4));
        return std::size_t{0};
    };
    CHECK(number(0) == profile.size());
    CHECK(profile.size() < 700);
    CHECK(profile.substr(36, 4) == "acsp");
    for (std::size_t i = 0; i < 3; ++i) {
        const std::size_t at = 8 + 4 * i;
        CHECK(std::abs(static_cast<int>(number(tag("rXYZ") + at) + number(tag("gXYZ") + at) + number(tag("bXYZ") + at)) -
                       static_cast<int>(number(tag("wtpt") + at))) <= 2);
    }
}
