#include "input/problem.hpp"
#include "layouts/layout.hpp"
#include "support/run.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

using namespace wayfolio;
using namespace wayfolio::layouts;
namespace fs = std::filesystem;

namespace {

Layout mine(const std::string& members, const std::string& paper = "") {
    return read_layout_bytes(R"({"format": "wayfolio-layout", "version": 1, "name": "mine", "extends": "report")" + members + "}",
                             "mine.json", paper);
}

/// The one fault of a layout that must be refused.
std::string fault_of(const std::string& members, const std::string& paper = "") {
    try {
        (void)mine(members, paper);
    } catch (const input::InputRejected& rejected) {
        REQUIRE(rejected.problems().size() == 1);
        return to_text(rejected.problems().front());
    }
    return "none";
}

}  // namespace

TEST_CASE("a $schema for editors is passed over in a layout") {
    CHECK(mine(R"(, "$schema": "schemas/layout.schema.json")").size(SizeRole::RowPitch) == mine("").size(SizeRole::RowPitch));
    CHECK_THAT(fault_of(R"(, "$schema": 1)"), Catch::Matchers::Contains("a text"));
}

TEST_CASE("the schema names every block that the reader knows") {
    const std::string schema(layouts::layout_schema());
    for (const auto name : layouts::block_names) CHECK(schema.find("\"" + std::string(name) + "\"") != std::string::npos);
}

TEST_CASE("every shipped layout is read on every paper it offers") {
    const auto names = shipped_layouts();
    REQUIRE(names.size() >= 3);
    for (const std::string& name : names)
        for (const char* paper : {"A4", "Letter"}) {
            const Layout layout = read_layout(name, paper);
            CHECK(layout.name == name);
            CHECK(layout.grid().name == paper);
            CHECK_FALSE(layout.blocks.empty());
            CHECK_FALSE(layout.title.empty());
        }
}

TEST_CASE("a layout says only what differs from the one it extends") {
    const Layout report = read_layout("report", "");
    const Layout layout = mine(
        R"(, "sizes": {"row_pitch": 20}, "papers": {"A4": {"left": 70}}, "decimal_mark": ",", "shown": {"angle": {"unit": "arcsec"}})");
    CHECK(layout.size(SizeRole::RowPitch) == units::point(20));
    CHECK(layout.size(SizeRole::BlockGap) == report.size(SizeRole::BlockGap));
    CHECK(layout.grid().left == units::point(70));
    CHECK(layout.grid().width == report.grid().width);
    CHECK(layout.decimal_mark == ',');
    CHECK(layout.angle.unit == "arcsec");
    CHECK(layout.length.unit == report.length.unit);
    CHECK(layout.blocks == report.blocks);
}

TEST_CASE("a changed colour changes the pens that name it, also those of the extended layout") {
    const Layout layout = mine(R"(, "colours": {"positive": "#102030"}, "pens": {"limit": {"colour": "#0A0B0C", "dash": [1, 2]}})");
    CHECK(layout.pen(PenRole::PositiveMean).colour == Colour{0x10, 0x20, 0x30});
    CHECK(layout.pen(PenRole::Limit).colour == Colour{10, 11, 12});
    CHECK(layout.pen(PenRole::Limit).dash.size() == 2);
    CHECK(layout.pen(PenRole::Limit).width == read_layout("report", "").pen(PenRole::Limit).width);
}

TEST_CASE("faults of a layout have their place and the nearest name") {
    CHECK(fault_of(R"(, "pens": {"axsi": {"width": 1}})").find("mine.json:1:91: /pens/axsi: found the key \"axsi\"") == 0);
    CHECK(fault_of(R"(, "pens": {"axsi": {"width": 1}})").find("did you mean \"axis\"?") != std::string::npos);
    CHECK(fault_of(R"(, "blocks": ["anser"])").find("did you mean \"answer\"?") != std::string::npos);
    CHECK(fault_of(R"(, "colours": {"ink": "#12345"})").find("/colours/ink: found \"#12345\"; expected a colour \"#RRGGBB\"") !=
          std::string::npos);
    CHECK(fault_of("", "A5").find("expected a paper of the layout: A4, Letter") != std::string::npos);
}

TEST_CASE("a layout file may extend a file of its own folder, and nothing outside") {
    const support::TemporaryFolder own;
    const fs::path folder = own.path();
    std::ofstream(folder / "house.json")
        << R"({"format": "wayfolio-layout", "version": 1, "name": "house", "extends": "report", "sizes": {"row_pitch": 17}})";
    std::ofstream(folder / "mine.json") << R"({"format": "wayfolio-layout", "version": 1, "name": "mine", "extends": "house.json"})";
    std::ofstream(folder / "loop.json") << R"({"format": "wayfolio-layout", "version": 1, "name": "loop", "extends": "loop.json"})";
    CHECK(read_layout((folder / "mine.json").string(), "").size(SizeRole::RowPitch) == units::point(17));
    CHECK_THROWS_WITH(read_layout((folder / "loop.json").string(), ""), Catch::Contains("at most 8 layouts that extend each other"));
    CHECK_THROWS_WITH(
        mine("").bytes +
            read_layout_bytes(R"({"format": "wayfolio-layout", "version": 1, "name": "x", "extends": "house.json"})", "x.json", "").bytes,
        Catch::Contains("/extends"));
}

TEST_CASE("a name that is no layout and no file is a missing input that names the nearest") {
    CHECK_THROWS_WITH(read_layout("reprot", ""), Catch::Contains("did you mean \"report\"?"));
    CHECK_THROWS_AS(read_layout("/nowhere/layout.json", ""), input::InputMissing);
}

TEST_CASE("shipped layouts may lie in a folder that the caller gives, and a path needs none") {
    const support::TemporaryFolder own;
    const fs::path folder = own.path(), nowhere = folder / "nowhere";
    fs::copy(shipped_folder(), folder / "shipped", fs::copy_options::recursive);
    fs::remove(folder / "shipped/figures.json");
    CHECK(shipped_layouts(folder / "shipped") == std::vector<std::string>{"customer", "report", "summary"});
    CHECK(read_layout("report", "", folder / "shipped").sha256 == read_layout("report", "").sha256);
    CHECK_THROWS_AS(read_layout("figures", "", folder / "shipped"), input::InputMissing);
    CHECK(read_layout((folder / "shipped/report.json").string(), "", nowhere).sha256 == read_layout("report", "").sha256);
    CHECK_THROWS_WITH(read_layout("report", "", nowhere), Catch::Contains((nowhere.string())));
    CHECK_THROWS_WITH(shipped_layouts(nowhere), Catch::Contains("are not there"));
}

TEST_CASE("the digest of a layout changes with the layout it extends and with its own bytes") {
    CHECK(mine("").sha256 != mine(" ").sha256);
    CHECK(mine("").sha256 == mine("").sha256);
    CHECK(mine("").sha256.size() == 64);
}

TEST_CASE("what a layout marks internal is not kept, and neither is that of the layouts that it extends") {
    const support::TemporaryFolder own;
    const std::string secret = R"("internal": {"remarks": ["SECRET: agreed with the print shop"]})";
    own.file("house.json", R"({"format": "wayfolio-layout", "version": 1, "name": "house", "extends": "report", )" + secret + "}");
    const std::string file = own.file(
        "mine.json", R"({"format": "wayfolio-layout", "version": 1, "name": "mine", "extends": "house.json", "sizes": {"row_pitch": 16, )" +
                         secret + "}}");
    const Layout layout = read_layout(file, "");
    CHECK_THAT(layout.bytes, !Catch::Contains("SECRET") && Catch::Contains("1 part marked internal left out"));
    REQUIRE(layout.extended.size() == 2);
    CHECK_THAT(layout.extended[0], !Catch::Contains("SECRET"));
    CHECK(layout.extended[1] == support::file_bytes(shipped_folder() / "report.json"));
    // What was kept gives the same layout again: a PDF that is drawn from it says the same digest.
    const Layout again = read_kept_layout({layout.bytes, layout.extended[0], layout.extended[1]}, "");
    CHECK(again.sha256 == layout.sha256);
    CHECK(again.size(SizeRole::RowPitch) == units::point(16));
}

TEST_CASE("colours that cannot be read on the paper, or told apart in grey, are refused with their contrast") {
    using Catch::Matchers::Contains;
    // 4.54:1 and 4.48:1 on white: #767676 is the lightest grey that WCAG 2.1 lets stand as text.
    CHECK(fault_of(R"(, "colours": {"grey": "#767676"})") == "none");
    CHECK_THAT(fault_of(R"(, "colours": {"grey": "#777777"})"),
               Contains("\"grey\" with a contrast of 4.47:1 to the paper") && Contains("at least 4.5:1, for letters") &&
                   Contains("mine.json:1:"));
    CHECK_THAT(fault_of(R"(, "colours": {"negative": "#D0A000"})"),
               Contains("\"negative\" with a contrast of 2.4") && Contains("at least 3:1"));
    CHECK_THAT(fault_of(R"(, "colours": {"paper": "#303030", "ink": "#FFFFFF", "grey": "#FFFFFF", "positive_label": "#FFFFFF",
                             "positive": "#AAAAFF", "negative": "#FFCC66"})"),
               Contains("\"negative_label\""));
    CHECK_THAT(fault_of(R"(, "colours": {"negative": "#503000"})"),
               Contains("\"positive\" and \"negative\" with a contrast of 1.") && Contains("printed in grey"));
}

TEST_CASE("what a house says has its place, its length and its heading") {
    using Catch::Matchers::Contains;
    const Layout layout = mine(R"(, "house": {"first_line": "Form 12-A", "signatures": ["Released by"]})");
    CHECK(layout.house.first_line == "Form 12-A");
    CHECK(layout.house.signatures == std::vector<std::string>{"Released by"});
    CHECK_THAT(fault_of(R"(, "house": {"heading": "Terms", "paragraphs": ["Complaints within 30 days."]})"),
               Contains("paragraphs without a place") && Contains("the block \"house\""));
    CHECK_THAT(fault_of(R"(, "blocks": ["answer", "house"], "house": {"paragraphs": ["Complaints within 30 days."]})"),
               Contains("heading"));
    const std::string low_head = R"(, "papers": {"A4": {"head_baseline": 16}})";
    CHECK(mine(low_head).house.first_line.empty());
    CHECK_THAT(fault_of(low_head + R"(, "house": {"first_line": "Form 12-A"})"), Contains("to head_baseline"));
    CHECK_THAT(fault_of(R"(, "house": {"first_line": ")" + std::string(111, 'a') + "\"}"),
               Contains("111 letters") && Contains("at most 110"));
    CHECK_THAT(fault_of(R"(, "blocks": ["answer", "remarks", "closing"])"), Contains("one of the two"));
}
