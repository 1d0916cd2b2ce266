#include "certificate/drafts.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace wayfolio;
using namespace wayfolio::testing;
using Catch::Matchers::Contains;

namespace {

std::vector<fs::path> every_document() {
    std::vector<fs::path> found;
    for (const char* folder : {"sample-results", "tests/golden/awkward", "tests/document/good"})
        for (const auto& entry : fs::directory_iterator(source / folder))
            if (entry.path().extension() == ".json") found.push_back(entry.path());
    std::ranges::sort(found);
    return found;
}

}  // namespace

TEST_CASE("every draft is well-formed and keeps the outline: elements, their order and number, what stands in them, references", "[slow]") {
    REQUIRE(every_document().size() >= 30);
    for (const fs::path& path : every_document()) {
        INFO(path);
        const support::Ran ran = held_to_outline(Drafted(path).draft.xml);
        CHECK(ran.out + ran.err == "");
        CHECK(ran.code == 0);
    }
}

TEST_CASE("the numbers of every draft are those of the evaluation, with U, k, probability and verdict", "[slow]") {
    for (const fs::path& path : every_document()) {
        INFO(path);
        const Drafted drafted(path);
        const support::Ran ran = held_to_numbers(drafted, drafted.draft.xml);
        CHECK_THAT(ran.out + ran.err, Contains(" numbers agree"));
        CHECK(ran.code == 0);
    }
}

TEST_CASE("what holds a draft to the outline finds every kind of change", "[slow]") {
    const std::string xml = Drafted(complete()).draft.xml;
    REQUIRE(held_to_outline(xml).code == 0);
    const std::string begin = between(xml, "<dcc:beginPerformanceDate>", "</dcc:beginPerformanceDate>"),
                      end = between(xml, "<dcc:endPerformanceDate>", "</dcc:endPerformanceDate>");
    const std::string swapped = with(with(with(xml, begin, "@"), end, begin), "@", end);
    for (const std::string& changed :
         {swapped, with(xml, begin, ""), with(xml, begin, begin + begin), with(xml, "<si:unit>\\micro\\metre<", "<si:unit>um<"),
          with(xml, "<si:value>", "<si:value>,"), with(xml, ">beforeAdjustment<", ">as found<"),
          with(xml, "refId=\"axis-1\"", "refId=\"axis-9\""), with(xml, "id=\"axis-1\"", "id=\"machine\""),
          with(xml, "<dcc:norm>", "<dcc:standard>"), with(xml, "schemaVersion=\"3.3.0\"", "schemaVersion=\"2\""),
          with(xml, "<dcc:content lang=\"en\">", "words<dcc:content lang=\"en\">"), with(xml, "<si:valueXMLList>0 ", "<si:valueXMLList>"),
          with(xml, "<dcc:items>", "<dcc:items><dcc:serial>1</dcc:serial>"), with(xml, ">DE<", ">Germany<")})
        CHECK(held_to_outline(changed).code == 1);
}

TEST_CASE("what holds the numbers to the evaluation finds another value, U, k, list and verdict") {
    const Drafted drafted(complete());
    const std::string& xml = drafted.draft.xml;
    REQUIRE(held_to_numbers(drafted, xml).code == 0);
    for (const std::string tag : {"si:value", "si:valueExpandedMU", "si:coverageFactor", "si:coverageProbability"}) {
        const std::string old = between(xml.substr(xml.find("Parameters<")), "<" + tag + ">", "</" + tag + ">");
        CHECK(held_to_numbers(drafted, with(xml, old, "<" + tag + ">77.125</" + tag + ">")).code == 1);
    }
    const std::string means = between(xml, "<si:labelXMLList>mean_positive", "</si:valueXMLList>");
    CHECK(held_to_numbers(drafted, with(xml, means, with(means, "<si:valueXMLList>", "<si:valueXMLList>1"))).code == 1);
    const std::string verdict = between(xml, "<dcc:conformity>", "</dcc:conformity>");
    CHECK(held_to_numbers(drafted, with(xml, verdict, "<dcc:conformity>noFail</dcc:conformity>")).code == 1);
}

TEST_CASE("the same document gives the same bytes") {
    CHECK(Drafted(complete("two-axes.json")).draft.xml == Drafted(complete("two-axes.json")).draft.xml);
}
