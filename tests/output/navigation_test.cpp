#include "output/pdf/navigation.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::output;
using units::point;

namespace {

frame::Bookmark bookmark(int level, const char* title, double y) { return {level, title, {point(72), point(y)}}; }

}  // namespace

TEST_CASE("bookmarks of all pages make one outline: the outermost open, what is deeper shut") {
    const std::vector<frame::Frame> pages{
        {point(300), point(200), "1", {bookmark(1, "One", 50), bookmark(2, "Inner", 60), bookmark(3, "Innermost", 70)}},
        {point(300), point(200), "2", {frame::Group{.items = {bookmark(1, "Two", 40)}}}}};
    Objects objects(10);
    REQUIRE(outline(pages, {3, 4}, objects) == 10);
    const auto& texts = objects.texts();
    CHECK(texts.at(10) == "<</Type /Outlines /First 11 0 R /Last 14 0 R /Count 3>>");
    CHECK(texts.at(11) ==
          "<</Title (One) /Dest [3 0 R /XYZ 72.00 150.00 0] /Parent 10 0 R /Next 14 0 R /First 12 0 R /Last 12 0 R /Count 1>>");
    CHECK(texts.at(12) == "<</Title (Inner) /Dest [3 0 R /XYZ 72.00 140.00 0] /Parent 11 0 R /First 13 0 R /Last 13 0 R /Count -1>>");
    CHECK(texts.at(13) == "<</Title (Innermost) /Dest [3 0 R /XYZ 72.00 130.00 0] /Parent 12 0 R>>");
    CHECK(texts.at(14) == "<</Title (Two) /Dest [4 0 R /XYZ 72.00 160.00 0] /Parent 10 0 R /Prev 11 0 R>>");
}

TEST_CASE("without bookmarks there is no outline") {
    Objects objects(10);
    CHECK_FALSE(outline({{point(300), point(200), "1", {}}}, {3}, objects));
    CHECK(objects.texts().empty());
}

TEST_CASE("anchors are places on their pages, and two of one name are our fault") {
    frame::Group group{.box = frame::Rect{point(10), point(20), point(5), point(5)}};
    group.anchor = "there";
    const std::vector<frame::Frame> pages{{point(300), point(200), "1", {}},
                                          {point(300), point(200), "2", {frame::Group{.items = {group}}}}};
    const auto found = destinations_of(pages);
    REQUIRE(found.size() == 1);
    CHECK(in_words(found.at("there"), {3, 4}) == "[4 0 R /XYZ 10.00 180.00 0]");
    CHECK_THROWS_WITH(destinations_of({pages[1], pages[1]}), Catch::Contains("two groups have the anchor \"there\""));
}
