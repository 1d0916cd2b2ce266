#include "output/pdf/join_pages.hpp"

#include "output/pdf/glyph_sample.hpp"
#include "output/output.hpp"
#include "output/seen_pdf.hpp"
#include "output/pdf/write_pdf.hpp"
#include "support/sample_pages.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::testing;
using namespace wayfolio::output;
using frame::Role;
using Catch::Matchers::Contains;

namespace {

frame::Frame page_of(std::vector<frame::Item> items, const char* label = "") { return {units::point(400), units::point(500), label, std::move(items)}; }

/// Six pages of which each continues one table, so that the fourth begins in another surface than the first; the first leads to the last.
std::vector<frame::Frame> six_pages() {
    std::vector<frame::Frame> pages;
    for (int i = 0; i < 6; ++i) {
        frame::Group heading = group(Role::Heading1, words("Page " + std::to_string(i + 1) + " \u2212\u202f" + std::string(1, static_cast<char>('q' + i)), 66, 84));
        if (i == 5) heading.anchor = "last";
        pages.push_back(page_of({std::move(heading), table(120, 3 * i + 1)}));
    }
    pages[0].items.emplace_back(group(Role::Paragraph, {group(Role::LinkText, all_of({words("the last", 66, 300), {frame::Link{.box = box(66, 290, 40, 12), .destination = "last", .description = "Last"}}}))}));
    return pages;
}

std::string drawn(const std::vector<frame::Frame>& pages) { return pdf(pages, {.title = "Joined", .created = "2026-03-02"}, shaper()); }

/// The pages of several surfaces in one file, each surface beginning with its own sample.
std::string joined(const std::vector<frame::Frame>& pages, const std::vector<std::vector<frame::GlyphRun>>& samples) {
    PagesFiles files;
    for (std::size_t i = 0; i < samples.size(); ++i) files.push_back(std::make_unique<PagesFile>(draw_pages({pages, samples[i], shaper()}, {i, i + 1})));
    QPDF whole;
    whole.emptyPDF();
    CHECK(joined_records(files).front().type == "Document");
    join_pages(whole, files, reserve_pages(whole, samples.size()));
    return write_pdf(whole, {});
}

}  // namespace

TEST_CASE("pages are shared out by weight, never less than one to a surface, and few pages not at all") {
    const auto pages = [](const std::vector<std::size_t>& tens_of_runs) {
        std::vector<frame::Frame> all;
        for (const std::size_t tens : tens_of_runs) all.push_back(page_of(std::vector<frame::Item>(10 * tens, words("x", 20, 20).front())));
        return all;
    };
    const auto cut = [&](const std::vector<std::size_t>& tens_of_runs) {
        const auto ranges = shared_out(pages(tens_of_runs));
        CHECK(ranges.front().first == 0);
        CHECK(ranges.back().end == tens_of_runs.size());
        return ranges.size() == 1 ? 0 : ranges[1].first;
    };
    CHECK(cut({1}) == 0);
    CHECK(cut({9, 9, 9}) == 0);
    CHECK(cut({5, 5, 5, 5, 5, 5}) == 3);
    CHECK(cut({90, 1, 1, 1}) == 1);
    CHECK(cut({1, 1, 1, 90}) == 3);
    CHECK(cut({1, 1, 20, 1, 22}) == 3);
}

TEST_CASE("a sample holds each glyph once, with the text that it first stands for, where every page shows it") {
    const auto sample = glyph_sample({page_of(words("abba", 20, 20)), page_of({group(Role::Paragraph, words("cab\u2212", 20, 20)), figure(90, 170)})});
    REQUIRE(!sample.empty());
    CHECK(sample.front().text.substr(0, 6) == "abc\u2212");
    CHECK(sample.front().glyphs.size() == sample.front().clusters.size());
    for (const frame::GlyphRun& one : sample)
        for (const frame::Glyph& glyph : one.glyphs) CHECK((glyph.x == units::point(1) && glyph.y == units::point(2)));
    CHECK(glyph_sample({page_of({rule(0, 0, 9, 9)})}).empty());
}

TEST_CASE("pages of two surfaces share their fonts, and read as one document") {
    const std::vector<frame::Frame> pages = six_pages();
    REQUIRE(shared_out(pages).size() == 2);
    const std::string bytes = drawn(pages);
    const std::string fonts = seen_by("pdffonts", bytes);
    CHECK(count(fonts, "+Inter-Regular") == 2);  // Cairo puts letters and signs into a font each
    CHECK(count(seen_by("qpdf --qdf --object-streams=disable", bytes, "-"), "/FontFile") == count(fonts, "+"));
    const std::string text = seen_by("pdftotext -raw", bytes, "-");
    std::size_t at = 0;
    for (const char* heading : {"Page 1 \u2212 q", "Page 2 \u2212 r", "Page 3 \u2212 s", "Page 4 \u2212 t", "Page 5 \u2212 u", "Page 6 \u2212 v"}) {
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

TEST_CASE("whoever draws first, the same pages give the same bytes") { CHECK(drawn(six_pages()) == drawn(six_pages())); }

TEST_CASE("surfaces whose fonts differ keep their own, and no letter changes") {
    const std::vector<frame::Frame> pages{page_of(words("first", 20, 20)), page_of(words("second", 20, 20))};
    const auto sample = glyph_sample(pages);
    const std::string shared = joined(pages, {sample, sample}), own = joined(pages, {glyph_sample({pages[0]}), glyph_sample({pages[1]})});
    CHECK(count(seen_by("pdffonts", shared), "+Inter") == 1);
    CHECK(count(seen_by("pdffonts", own), "+Inter") == 2);
    for (const std::string& bytes : {shared, own}) CHECK(seen_by("pdftotext -raw", bytes, "-") == "first\n\fsecond\n\f");
}

TEST_CASE("what fails on a surface of its own is told as if it were alone") {
    std::vector<frame::Frame> pages = six_pages();
    pages[5].items.emplace_back(group(Role::TableRow, words("x", 10, 10)));
    CHECK_THROWS_WITH(drawn(pages), Contains("cell"));
}
