#include "frame/overloaded.hpp"
#include "frame/walk.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using frame::Group, frame::Walk;

namespace {

frame::GlyphRun saying(const std::string& text) { return {.text = text}; }

Group named(const std::string& id, std::vector<frame::Item> items) { return {.id = id, .items = std::move(items)}; }

/// a( one b( two ) c( ) ) three
std::vector<frame::Item> nested() {
    return {named("a", {saying("one"), frame::Link{.destination = "x"}, named("b", {saying("two")}), named("c", {})}), saying("three")};
}

}  // namespace

TEST_CASE("a walk sees the kinds that its visitor takes, in reading order, a group before what it holds") {
    std::string seen;
    CHECK(frame::walk(nested(), frame::overloaded{[&](const Group& group) { seen += group.id + " "; },
                                                  [&](const frame::GlyphRun& run) { seen += run.text + " "; }}));
    CHECK(seen == "a one b two c three ");
}

TEST_CASE("a walk enters groups that its visitor does not take, and knows those around each item") {
    std::string seen;
    frame::walk(nested(), [&](const frame::GlyphRun& run, const frame::Around& around) {
        for (const Group* group : around) seen += group->id + "/";
        seen += run.text + " ";
    });
    CHECK(seen == "a/one a/b/two three ");
}

TEST_CASE("a visitor leaves out what a group holds, or ends the walk") {
    std::string seen;
    const auto words = [&](const frame::GlyphRun& run) { seen += run.text + " "; };
    CHECK(frame::walk(nested(), frame::overloaded{words, [](const Group& group) { return group.id == "b" ? Walk::Past : Walk::On; }}));
    CHECK(seen == "one three ");
    seen.clear();
    CHECK_FALSE(
        frame::walk(nested(), frame::overloaded{words, [](const Group& group) { return group.id == "b" ? Walk::Stop : Walk::On; }}));
    CHECK(seen == "one ");
}

TEST_CASE("a walk through one item sees that item itself") {
    std::string seen;
    frame::walk(nested()[0], [&](const Group& group) { seen += group.id; });
    CHECK(seen == "abc");
}
