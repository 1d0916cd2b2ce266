#include "layouts/layout.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

using namespace wayfolio;
using namespace wayfolio::layouts;
namespace fs = std::filesystem;

namespace {

const fs::path source = WAYFOLIO_SOURCE_FOLDER;

std::string text_of(const fs::path& path) {
    std::ostringstream text;
    text << std::ifstream(path).rdbuf();
    return text.str();
}

/// The code of the rooms that draw.
std::string drawing_code() {
    std::string code;
    for (const char* room : {"plot", "page", "produce", "catalogue"})
        for (const auto& entry : fs::recursive_directory_iterator(source / "render" / room))
            if (entry.is_regular_file()) code += text_of(entry.path());
    return code;
}

/// "table_rule" is TableRule in code.
std::string enumerator(std::string_view word) {
    std::string name;
    bool begins = true;
    for (const char letter : word) {
        if (letter != '_') name += begins ? static_cast<char>(std::toupper(static_cast<unsigned char>(letter))) : letter;
        begins = letter == '_';
    }
    return name;
}

/// Roles of a kind that the code does not name.
template <class Role>
std::set<std::string> unnamed(const std::string& code, const std::string& kind) {
    std::set<std::string> words;
    for (const auto& known : role_words<Role>) {
        const std::string name = kind + "::" + enumerator(known.word);
        bool named = false;
        for (std::size_t at = code.find(name); !named && at != std::string::npos; at = code.find(name, at + 1))
            named = std::isalnum(static_cast<unsigned char>(code[at + name.size()])) == 0;
        if (!named) words.insert(std::string(known.word));
    }
    return words;
}

const std::string report = text_of(source / "layouts/report.json");

/// A layout that extends the shipped report with some text of it changed.
Layout over_changed_report(const std::string& from, const std::string& to) {
    std::string changed = report;
    const std::size_t at = changed.find(from);
    REQUIRE(at != std::string::npos);
    changed.replace(at, from.size(), to);
    return read_kept_layout({R"({"format": "wayfolio-layout", "version": 1, "name": "mine", "extends": "report"})", changed}, "");
}

}  // namespace

TEST_CASE("no layout has to name a role that nobody draws: each is named in the code that draws, or is the colour of a pen") {
    const std::string code = drawing_code();
    CHECK(unnamed<TypeRole>(code, "TypeRole") == std::set<std::string>{});
    CHECK(unnamed<PenRole>(code, "PenRole") == std::set<std::string>{});
    CHECK(unnamed<SizeRole>(code, "SizeRole") == std::set<std::string>{});
    for (const std::string& word : unnamed<ColourRole>(code, "ColourRole")) {
        INFO(word);
        CHECK(report.find("\"colour\": \"" + word + "\"") != std::string::npos);
    }
    CHECK(unnamed<PenRole>("line(tools, PenRole::TickMark, from, to)", "PenRole").contains("tick"));
}

TEST_CASE("every role has one word, and no two share it") {
    std::set<std::string_view> pens, sizes;
    for (const auto& known : role_words<PenRole>) CHECK(pens.insert(known.word).second);
    for (const auto& known : role_words<SizeRole>) CHECK(sizes.insert(known.word).second);
}

TEST_CASE("every shipped layout gives each role its value: a pen can be seen, a size takes room, and both have the value of the file") {
    for (const std::string& name : shipped_layouts()) {
        const Layout layout = read_layout(name, "A4");
        INFO(name);
        for (const auto& known : role_words<PenRole>) CHECK(units::point(0) < layout.pen(known.role).width);
        for (const auto& known : role_words<SizeRole>) CHECK(units::point(0) < layout.size(known.role));
        for (const auto& known : role_words<TypeRole>) CHECK(units::point(0) < layout.type(known.role).size);
    }
    const Layout layout = read_layout("report", "A4");
    CHECK(layout.pen(PenRole::SecondRecord).dash == std::vector{units::point(3.2), units::point(1.8)});
    CHECK(layout.size(SizeRole::BlockGap) == units::point(24));
    CHECK(layout.colour(ColourRole::Lane) == Colour{0xF1, 0xF1, 0xF1});
}

TEST_CASE("a role that a layout and those it extends all leave out is a fault, also where the layout does not speak of its kind") {
    CHECK_THROWS_WITH(over_changed_report(R"("curve_height": 19, )", ""),
                      Catch::Contains("/sizes") && Catch::Contains("a value for every role"));
    CHECK_THROWS_WITH(over_changed_report(R"("trace": {"width": 0.5, "colour": "ink"},)", ""), Catch::Contains("/pens"));
    CHECK(over_changed_report(R"("curve_height": 19)", R"("curve_height": 29)").size(SizeRole::CurveHeight) == units::point(29));
}
