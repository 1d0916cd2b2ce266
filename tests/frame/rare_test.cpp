#include "frame/frame.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio::frame;

TEST_CASE("what a group has seldom is copied with it, and changing the copy changes nothing of the first") {
    Group first;
    first.anchor = "place";
    first.clip = Rect{};
    Group second = first;
    second.anchor = "elsewhere";
    second.clip = std::nullopt;
    CHECK(first.anchor == "place");
    CHECK(first.clip.has_value());
    CHECK(second.anchor == "elsewhere");
    CHECK_FALSE(second.clip.has_value());
    first = second;
    CHECK(first.anchor + "!" == "elsewhere!");
    const Group third = std::move(first);
    CHECK(third.anchor.text() == "elsewhere");
}

TEST_CASE("an empty text and none are the same") {
    Group group;
    CHECK(group.anchor.empty());
    CHECK(group.anchor.text().empty());
    group.anchor = "";
    CHECK(group.anchor.empty());
    group.anchor = "x";
    CHECK_FALSE(group.anchor.empty());
}
