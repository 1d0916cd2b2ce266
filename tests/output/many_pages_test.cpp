#include "output/output.hpp"
#include "output/seen_pdf.hpp"
#include "support/sample_pages.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::testing;
using frame::Role;
using Catch::Matchers::Contains;

namespace {

/// Six pages of which each continues one table; the first leads to the last.
std::vector<frame::Frame> six_pages() {
    std::vector<frame::Frame> pages;
    for (int i = 0; i < 6; ++i) {
        frame::Group heading = group(
            Role::Heading1, words("Page " + std::to_string(i + 1) + " \u2212\u202f" + std::string(1, static_cast<char>('q' + i)), 66, 84));
        if (i == 5) heading.anchor = "last";
        pages.push_back({units::point(400), units::point(500), "", {std::move(heading), table(120, 3 * i + 1)}});
    }
    const frame::Link link{.box = box(66, 290, 40, 12), .destination = "last", .description = "Last"};
    pages[0].items.emplace_back(group(Role::Paragraph, {group(Role::LinkText, all_of({words("the last", 66, 300), {link}}))}));
    return pages;
}

std::string drawn(const std::vector<frame::Frame>& pages) {
    return output::pdf(pages, {.title = "Six pages", .created = "2026-03-02"}, shaper());
}

}  // namespace

TEST_CASE("many pages share their fonts, and read as one document") {
    const std::vector<frame::Frame> pages = six_pages();
    const std::string bytes = drawn(pages);
    const std::string fonts = seen_by("pdffonts", bytes);
    CHECK(count(fonts, "+Inter-Regular") == 2);  // Cairo puts letters and signs into a font each
    CHECK(count(seen_by("qpdf --qdf --object-streams=disable", bytes, "-"), "/FontFile") == count(fonts, "+"));
    const std::string text = seen_by("pdftotext -raw", bytes, "-");
    std::size_t at = 0;
    for (const char* heading :
         {"Page 1 \u2212 q", "Page 2 \u2212 r", "Page 3 \u2212 s", "Page 4 \u2212 t", "Page 5 \u2212 u", "Page 6 \u2212 v"}) {
        const std::size_t found = text.find(heading);
        CHECK(found != std::string::npos);
        CHECK(found >= at);
        at = found;
    }
    const std::string structure = seen_by("pdfinfo -struct-text", bytes);
    CHECK(count(structure, "Document") == 1);
    CHECK(count(structure, "Table\n") + count(structure, "Table:") + count(structure, "Table (") == 1);
    CHECK(count(structure, "\"Target\"") == 1);
    CHECK_THAT(structure, Contains("\"18\""));
    CHECK(seen_by("qpdf --check", bytes).find("No syntax") != std::string::npos);
    CHECK_THAT(seen_by("qpdf --qdf --object-streams=disable", bytes, "-"), Contains("/XYZ"));
}

TEST_CASE("whichever thread is quicker, the same pages give the same bytes") { CHECK(drawn(six_pages()) == drawn(six_pages())); }

TEST_CASE("a fault on the last of many pages is told as if it were alone") {
    std::vector<frame::Frame> pages = six_pages();
    pages[5].items.emplace_back(group(Role::TableRow, words("x", 10, 10)));
    CHECK_THROWS_WITH(drawn(pages), Contains("cell"));
}
