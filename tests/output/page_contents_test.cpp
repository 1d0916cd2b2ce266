#include "output/pdf/page_contents.hpp"

#include "output/memory_stream.hpp"
#include "output/pdf/packed.hpp"

#include <cairo-pdf.h>
#include <catch2/catch.hpp>

using namespace wayfolio::output;
using Catch::Matchers::Contains;

namespace {

/// What Cairo writes for each of two pages, the first with a paragraph and a private part, the second with a paragraph and a reference.
std::vector<std::string> written_pages() {
    std::string bytes;
    std::vector<std::string> pages;
    cairo_surface_t* surface = cairo_pdf_surface_create_for_stream(append_to_string, &bytes, 100, 100);
    cairo_t* cairo = cairo_create(surface);
    for (const std::vector<const char*>& tags : {std::vector<const char*>{"P", "Private"}, std::vector<const char*>{"P", "Reference"}}) {
        const std::size_t before = bytes.size();
        for (const char* tag : tags) {
            cairo_tag_begin(cairo, tag, "");
            cairo_rectangle(cairo, 10, 10, 20, 20);
            cairo_fill(cairo);
            cairo_tag_end(cairo, tag);
        }
        cairo_show_page(cairo);
        pages.push_back(bytes.substr(before));
    }
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
    return pages;
}

std::vector<std::string> contents_of(const std::vector<std::vector<std::string>>& types) {
    const auto written = written_pages();
    PageContents contents;
    for (std::size_t page = 0; page < types.size(); ++page) contents.add(written[page], types[page]);
    return contents.take();
}

}  // namespace

TEST_CASE("page contents come out in order, with private parts named artifacts and references links") {
    const auto contents = contents_of({{"P", "Private"}, {"P", "Link"}});
    REQUIRE(contents.size() == 2);
    const std::string first = unpacked(contents[0]), second = unpacked(contents[1]);
    CHECK_THAT(first, Contains("/P << /MCID 0 >> BDC") && Contains("/Artifact BMC") && !Contains("Private"));
    CHECK_THAT(second, Contains("/P << /MCID 0 >> BDC") && Contains("/Link << /MCID 1 >> BDC") && !Contains("Artifact") && !Contains("Reference"));
}

TEST_CASE("a page that does not hold what was drawn is our fault and is said") {
    CHECK_THROWS_WITH(contents_of({{"Private", "P"}}), Contains("tag 0 is not Private"));
    CHECK_THROWS_WITH(contents_of({{"P"}}), Contains("more than was drawn"));
    CHECK_THROWS_WITH(contents_of({{"P", "Private", "P"}}), Contains("less than was drawn"));
    PageContents contents;
    CHECK_THROWS_WITH(contents.add("nothing like a page", {}), Contains("Cairo spells a page otherwise"));
}

TEST_CASE("packing and unpacking give the bytes back, however far they shrink") {
    for (const std::string& bytes : {std::string(), std::string("one"), std::string(1'000'000, 'x')}) CHECK(unpacked(packed(bytes)) == bytes);
    CHECK_THROWS(unpacked("not packed"));
    CHECK_THROWS(unpacked(packed(std::string(1000, 'x')).substr(0, 8)));
}
