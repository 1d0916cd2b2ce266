#include "output/pdf/qpdf.hpp"
#include "output/pdf/structure_tree.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::output;
using Catch::Matchers::Contains;

namespace {

using units::point;

const TagRecord document{.type = "Document", .marked = false};

TagRecord marked(const char* type, std::size_t page = 0) { return {.type = type, .parent = 0, .page = page}; }

/// The tree of the records on two pages whose objects are 3 and 4, numbered from 10 on.
struct Tree {
    explicit Tree(const TagRecords& records) {
        Objects objects(10);
        made = structure_tree(records, {{"there", {1, point(20), point(700)}}}, {3, 4}, objects);
        texts = objects.texts();
    }
    StructureTree made;
    std::map<int, std::string> texts;
};

const frame::Link here{.box = {point(10), point(20), point(30), point(5)}, .destination = "there", .description = "Go there"};

TagRecord link(std::vector<frame::Link> links) {
    return {.type = "Link", .parent = 0, .marked = false, .page_height = 100, .links = std::move(links)};
}

}  // namespace

TEST_CASE("no string of a file is over 32 767 bytes: a longer text ends with three dots, and no letter is cut in two") {
    const auto spelled = [](const std::string& utf8) { return QPDFObjectHandle::parse(output::text_string(utf8)); };
    const auto repeated = [](const std::string& letter, std::size_t count) {
        std::string text;
        for (std::size_t i = 0; i < count; ++i) text += letter;
        return text;
    };
    for (const std::string letter : {"x", "\u03b1", "\u20ac", "\U0001d6fc"}) {
        CAPTURE(letter);
        CHECK(spelled(repeated(letter, 8'000)).getUTF8Value() == repeated(letter, 8'000));
        QPDFObjectHandle cut = spelled(repeated(letter, 40'000));
        CHECK(cut.getStringValue().size() <= 32'767);
        CHECK(cut.getStringValue().size() >= 16'000);
        std::string words = cut.getUTF8Value();
        REQUIRE(words.ends_with("\u2026"));
        words.resize(words.size() - std::string("\u2026").size());
        CHECK(words == repeated(letter, words.size() / letter.size()));
    }
}

TEST_CASE("elements own their marked content, artifacts none, and the parent tree says so page by page") {
    const Tree tree({document, marked("P"), marked("Private"), marked("P"), marked("P", 1)});
    CHECK(tree.made.root == 10);
    CHECK(tree.texts.at(10) == "<</Type /StructTreeRoot /K [ 11 0 R] /ParentTree <</Nums [ 0 [ 12 0 R null 13 0 R] 1 [ 14 0 R]]>>>>");
    CHECK(tree.texts.at(11) == "<</S /Document /P 10 0 R /K [ 12 0 R 13 0 R 14 0 R]>>");
    CHECK(tree.texts.at(13) == "<</S /P /P 11 0 R /Pg 3 0 R /K 2>>");
    CHECK(tree.texts.at(14) == "<</S /P /P 11 0 R /Pg 4 0 R /K 0>>");
}

TEST_CASE("an element that goes on over the page is one") {
    TagRecords records{document, marked("P"), marked("P", 1)};
    for (std::size_t i = 1; i < records.size(); ++i) records[i].continues = "remark";
    const Tree tree(records);
    CHECK(tree.texts.size() == 3);
    CHECK(tree.texts.at(12) == "<</S /P /P 11 0 R /Pg 3 0 R /K [ 0 <</Type /MCR /Pg 4 0 R /MCID 0>>]>>");
}

TEST_CASE("a link's annotation lies over its areas, leads to its place and belongs to its element") {
    const Tree tree({document, link({here})});
    REQUIRE(tree.made.annotations == std::vector<std::vector<int>>{{13}, {}});
    CHECK(tree.texts.at(13) ==
          "<</Type /Annot /Subtype /Link /Rect [10.00 75.00 40.00 80.00] /Border [0 0 0] /Dest [4 0 R /XYZ 20.00 700.00 0] /F 4 "
          "/StructParent 2 /Contents (Go there)>>");
    CHECK_THAT(tree.texts.at(12), Contains("/K [ <</Type /OBJR /Pg 3 0 R /Obj 13 0 R>>]"));
    CHECK_THAT(tree.texts.at(10), Contains(" 2 12 0 R]"));
}

TEST_CASE("a link over several lines has one rectangle around all and the corners of each, against the clock") {
    const frame::Link next{.box = {point(5), point(30), point(10), point(5)}, .destination = "there"};
    const Tree tree({document, link({here, next})});
    CHECK_THAT(tree.texts.at(13), Contains("/Rect [5.00 65.00 40.00 80.00] /QuadPoints [ 10.00 75.00 40.00 75.00 40.00 80.00 10.00 80.00 "
                                           "5.00 65.00 15.00 65.00 15.00 70.00 5.00 70.00]"));
}

TEST_CASE("an address is written in plain characters, and a link to nowhere is our fault") {
    const frame::Link web{.box = here.box, .uri = "https://example.com/a b?c=(1)", .description = "\u0394"};
    CHECK_THAT(Tree({document, link({web})}).texts.at(13),
               Contains("/A <</Type /Action /S /URI /URI (https://example.com/a%20b?c=%281%29)>>") && Contains("/Contents <feff0394>"));
    const frame::Link lost{.box = here.box, .destination = "nowhere"};
    CHECK_THROWS_WITH(Tree({document, link({lost})}), Contains("a link goes to \"nowhere\""));
}
