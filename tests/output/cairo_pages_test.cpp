#include "output/pdf/pages/cairo_pages.hpp"
#include "frame/walk.hpp"

#include "output/memory_stream.hpp"
#include "support/sample_pages.hpp"

#include <cairo-pdf.h>
#include <catch2/catch.hpp>

#include <future>
#include <thread>

using namespace wayfolio;
using namespace wayfolio::output;
using namespace wayfolio::testing;
using Catch::Matchers::Contains;

namespace {

/// Pages with these tags, as Cairo writes them: what it wrote for each page when that was done, and in the end the content of each, packed.
struct Written {
    std::vector<std::string> with_page, contents;
};

Written written(const std::vector<std::vector<const char*>>& pages) {
    Written made;
    std::string bytes;
    cairo_surface_t* surface = cairo_pdf_surface_create_for_stream(append_to_string, &bytes, 100, 100);
    cairo_t* cairo = cairo_create(surface);
    for (const auto& tags : pages) {
        const std::size_t before = bytes.size();
        for (const char* tag : tags) {
            cairo_tag_begin(cairo, tag, "");
            cairo_rectangle(cairo, 10, 10, 20, 20);
            cairo_fill(cairo);
            cairo_tag_end(cairo, tag);
        }
        cairo_show_page(cairo);
        made.with_page.push_back(bytes.substr(before));
    }
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
    QPDF file;
    file.processMemoryFile("drawn", bytes.data(), bytes.size());
    for (Handle page : file.getAllPages()) made.contents.push_back(text_of(page.getKey("/Contents").getRawStreamData()));
    return made;
}

std::string content_with(const std::vector<const char*>& tags) { return unpacked(written({tags}).contents.front()); }

}  // namespace

TEST_CASE("marked content gets its name: private parts are artifacts and references links") {
    const std::string named = with_types_named(content_with({"P", "Private", "Reference"}), {"P", "Private", "Link"});
    CHECK_THAT(named, Contains("/P << /MCID 0 >> BDC") && Contains("/Artifact BMC") && Contains("/Link << /MCID 2 >> BDC"));
    CHECK_THAT(named, !Contains("Private") && !Contains("Reference"));
}

TEST_CASE("a page that does not hold what was drawn is our fault and is said") {
    const std::string content = content_with({"P", "Private"});
    CHECK_THROWS_WITH(with_types_named(content, {"Private", "P"}), Contains("tag 0 is not Private"));
    CHECK_THROWS_WITH(with_types_named(content, {"P"}), Contains("more than was drawn"));
    CHECK_THROWS_WITH(with_types_named(content, {"P", "Private", "P"}), Contains("less than was drawn"));
}

TEST_CASE("the content of a page is found in what Cairo wrote last, before its file is finished") {
    const Written made = written({{"P"}, {"P", "Private"}, {}});
    for (std::size_t i = 0; i < made.contents.size(); ++i) CHECK(content_in(made.with_page[i]) == made.contents[i]);
    for (const char* other : {"", "/Contents ", "/Contents 5 0 R", "5 0 obj\n<< /Length 6 0 R\n>>\nstream\nx\n/Contents 5 0 R",
                              "5 0 obj\n<< /Type /Page\n   /Contents 6 0 R\n>>\n"})
        CHECK(content_in(other).empty());
}

TEST_CASE("pages are made ready while others are drawn, and what counts is the finished file") {
    const Written made = written({{"P"}, {"P", "Private"}, {"Private"}, {"P"}});
    const std::vector<std::vector<std::string_view>> types{{"P"}, {"P", "Private"}, {"Private"}, {"P"}};
    const auto taken = [&](text::Threads threads, const std::vector<std::string>& early) {
        PageContents contents(threads);
        for (std::size_t i = 0; i < types.size(); ++i) contents.add(early[i], types[i]);
        std::vector<std::string> ready;
        for (const PageContent& page : contents.take(made.contents)) ready.push_back(unpacked(page.packed));
        return ready;
    };
    std::vector<std::string> expected;
    for (std::size_t i = 0; i < types.size(); ++i)
        expected.push_back(with_short_places(with_types_named(unpacked(made.contents[i]), types[i])));
    CHECK(taken(text::Threads::Several, made.with_page) == expected);
    CHECK(taken(text::Threads::One, made.with_page) == expected);
    CHECK(taken(text::Threads::Several, {made.with_page[1], "", made.with_page[0], made.with_page[3]}) == expected);

    PageContents wrong(text::Threads::Several);
    for (std::size_t i = 0; i < types.size(); ++i) wrong.add(made.with_page[i], {"P"});
    CHECK_THROWS_WITH(wrong.take(made.contents), Contains("more than was drawn"));
}

TEST_CASE("places on a page lose the digits that show nothing, and texts, moves within a text and all else stay") {
    CHECK(with_short_places("142.094 375.516 m 142.3 -0.004 l\n 1.006 2.345678 3 4 5.999 6.001 c\n") ==
          "142.09 375.52 m 142.3 0 l\n 1.01 2.35 3 4 6 6 c\n");
    CHECK(with_short_places("0.5 0.5 594.281 840.891 re f") == "0.5 0.5 594.28 840.89 re f");
    CHECK(with_short_places("7.5 0 0 -7.512345 241.351562 108 Tm") == "7.5 0 0 -7.512345 241.35 108 Tm");
    CHECK(with_short_places("0.101961 0.592157 1 rg 0.435294 0 0 RG") == "0.102 0.592 1 rg 0.435 0 0 RG");
    for (const char* stays :
         {"24.467578 0 Td\n", "(1.2345 m 1.2345 2 l) Tj", "(\\) 1.2345 2.3456 m \\( ) Tj", "(a (1.2345 2.3456 m) b)Tj",
          "[(1.2345)-12.3456(2)]TJ", "[ 2.2345 1.4567] 0.1234 d", "/f-0-0 1.2345 Tf", "<0003>Tj 1.23456", "", " \n", "1.2345 "})
        CHECK(with_short_places(stays) == stays);
    CHECK(with_short_places("1 2 3 4 5 6 7.12345 8 m") == "1 2 3 4 5 6 7.12345 8 m");  // no operator of a page takes as many
}

TEST_CASE("a page whose font Cairo lost is not written") {
    const std::string content = "BT\n/f-0-0 1 Tf\n(a) Tj\n/f-1-0 9 Tf\nET\n";
    CHECK_NOTHROW(require_fonts(fonts_set(content), {"/f-0-0", "/f-1-0", "/f-2-0"}));
    CHECK_THROWS_WITH(require_fonts(fonts_set(content), {"/f-0-0"}), Contains("a font of a page could not be written"));
    CHECK_THROWS_AS(require_fonts(fonts_set(content), {}), files::OutputFailed);
    CHECK_NOTHROW(require_fonts(fonts_set("0 0 m\n"), {}));
    CHECK_THROWS_AS(require_fonts(fonts_set("1 Tf\n"), {"/f-0-0"}), files::OutputFailed);
}

TEST_CASE("Cairo's pages go into a file with all that they lead to, and with nothing of its structure tree") {
    CairoPages drawn(two_pages(), shaper());
    Objects objects(drawn.next_number());
    drawn.move_to(objects, {" /First true", " /Second true"});
    CHECK_THAT(objects.texts().at(drawn.numbers()[1]), Contains("/Second true") && Contains("/Contents") && !Contains("/StructParents"));
    CHECK(objects.has(drawn.tree_number()));
    int fonts = 0;
    for (const auto& [number, text] : objects.texts()) {
        CHECK_THAT(text, !Contains("/StructElem") && !Contains("/Catalog"));
        fonts += text.find("/FontDescriptor") != std::string::npos;
    }
    CHECK(fonts >= 3);
    CHECK(drawn.next_number() > objects.texts().rbegin()->first);
}

TEST_CASE("of a page that is drawn only its bookmarks, size and label are left, for a long table holds hundreds of megabytes") {
    const std::vector<frame::Frame> pages = two_pages();
    const CairoPages drawn(pages, shaper());
    std::size_t bookmarks = 0, others = 0;
    for (const frame::Frame& page : pages) frame::walk(page.items, [&](const frame::Bookmark&) { ++bookmarks; });
    REQUIRE(bookmarks > 0);
    for (std::size_t page = 0; page < pages.size(); ++page) {
        CHECK(drawn.frames().at(page).height == pages[page].height);
        CHECK(drawn.frames().at(page).label == pages[page].label);
        for (const frame::Item& item : drawn.frames().at(page).items)
            std::holds_alternative<frame::Bookmark>(item) ? --bookmarks : ++others;
    }
    CHECK(bookmarks == 0);
    CHECK(others == 0);
}

TEST_CASE("packing and unpacking give the bytes back, however far they shrink") {
    for (const std::string& bytes : {std::string(), std::string("one"), std::string(1'000'000, 'x')})
        CHECK(unpacked(packed(bytes)) == bytes);
    CHECK_THROWS(unpacked("not packed"));
    CHECK_THROWS(unpacked(packed(std::string(1000, 'x')).substr(0, 8)));
}

TEST_CASE("work that is shared out is done once each, and what it throws arrives") {
    const text::Threads threads = GENERATE(text::Threads::One, text::Threads::Several);
    std::vector<int> done(100);
    share_out(done.size(), threads, [&](std::size_t i) { ++done[i]; });
    CHECK(done == std::vector<int>(100, 1));
    CHECK_THROWS_WITH(share_out(9, threads,
                                [](std::size_t i) {
                                    if (i == 4) throw std::runtime_error("the fourth");
                                }),
                      "the fourth");
}

TEST_CASE("where one thread is to do, no other does") {
    const std::thread::id mine = std::this_thread::get_id();
    share_out(9, text::Threads::One, [&](std::size_t) { CHECK(std::this_thread::get_id() == mine); });
    CHECK(std::async(text::launched(text::Threads::One), [] { return std::this_thread::get_id(); }).get() == mine);
}
