#include "output/output.hpp"
#include "output/seen_pdf.hpp"
#include "support/golden.hpp"
#include "support/sample_pages.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <regex>

using namespace wayfolio;
using namespace wayfolio::testing;
using frame::Role;
using support::run;
using support::TemporaryFolder;

namespace {

output::Metadata about() {
    return {.title = "Report 17 \u2212 X",
            .author = "Nobody & Sons",
            .subject = "Invented data",
            .keywords = "axis",
            .created = "2026-03-02T10:20:30+01:00"};
}

std::string pdf_of(const std::vector<frame::Frame>& pages) { return output::pdf(pages, about(), shaper()); }

std::string pdf_of(std::vector<frame::Item> items) {
    return pdf_of(std::vector<frame::Frame>{{units::point(300), units::point(200), "1", std::move(items)}});
}

/// The file with every stream readable and every object on its own.
std::string plain(const std::string& pdf) {
    return seen_by("qpdf --qdf --object-streams=disable --no-original-object-ids", pdf, "-");
}

}  // namespace

TEST_CASE("the PDF is sound to an outside reader") {
    CHECK(seen_by("qpdf --check", pdf_of(two_pages())).find("No syntax") != std::string::npos);
}

TEST_CASE("every font is a private one, embedded, subset and mapped to Unicode") {
    std::istringstream table(seen_by("pdffonts", pdf_of(two_pages())));
    int fonts = 0;
    for (std::string line; std::getline(table, line);) {
        if (line.find('+') == std::string::npos) continue;
        ++fonts;
        CHECK(std::regex_search(line, std::regex(R"(^[A-Z]{6}\+(Inter-|DejaVuSans).* yes yes yes )")));
    }
    CHECK(fonts >= 3);
}

TEST_CASE("text comes out in reading order with signs, units and spaces intact") {
    const std::string text = seen_by("pdftotext -raw", pdf_of(two_pages()), "-");
    // pdftotext gives every kind of space as U+0020.
    CHECK(text.find("X axis outside by 3.4 \u00b5m\nMeasured value A = \u22125.2 \u00b5m at 20 \u00b0C\n") != std::string::npos);
    CHECK(text.find("Target Mean / \u00b5m 2s / \u00b5m\n1 \u22120.25 1.10\n") != std::string::npos);
    CHECK(text.find("\u2300 10 mm, \u0394L and \u041e\u0441\u044c X") != std::string::npos);
}

TEST_CASE("the structure tree says what a reader needs: one table over two pages, scopes, no artifacts") {
    check_golden("output/two-pages.structure.txt", seen_by("pdfinfo -struct-text", pdf_of(two_pages())));
}

TEST_CASE("figures have alternative text, links a description, notes an ID") {
    const std::string file = plain(pdf_of(two_pages()));
    CHECK(count(file, "/Alt ") == 1);
    CHECK(count(file, "/Contents (Go to the opening of X)") == 1);
    CHECK(count(file, "/ID (note-000001)") == 1);
    CHECK(count(file, "/URI (https://example.com/a%20b?c=%281%29)") == 1);
    CHECK(count(file, "/S /Private") == 0);
    CHECK(count(file, "/Artifact BMC") == 9);
    CHECK(count(file, "/Lang (en)") == 1);
    CHECK(count(file, "/CIDToGIDMap /Identity") == 1);
    CHECK(count(file, "/GTS_PDFA1") == 1);
}

TEST_CASE("a paragraph that goes on over the page is one paragraph") {
    std::vector<frame::Frame> pages;
    for (const char* part : {"It starts here ", "and ends there."}) {
        frame::Group paragraph = group(Role::Paragraph, words(part, 20, 20));
        paragraph.continues = "remark";
        pages.push_back({units::point(300), units::point(200), "", {std::move(paragraph)}});
    }
    CHECK(seen_by("pdfinfo -struct-text", pdf_of(pages)) ==
          "Document\n  P (block)\n    \"It starts here \"\n    \"and ends there.\"\n");
}

TEST_CASE("a link of its own is an element with a description") {
    const std::string file = plain(
        pdf_of({group(Role::Paragraph,
                      all_of({words("See the web", 20, 20),
                              {frame::Link{.box = box(20, 10, 60, 12), .uri = "https://example.com", .description = "Web"}}}))}));
    CHECK(count(file, "/S /Link") == 1);
    CHECK(count(file, "/Contents (Web)") == 1);
    const frame::Link alone{.box = box(20, 10, 60, 12), .uri = "https://example.com", .description = "Web"};
    CHECK(std::regex_search(seen_by("pdfinfo -struct-text", pdf_of({group(Role::Heading1, words("Heading", 20, 40)), alone})),
                            std::regex(R"(\n  P \(block\)\n    Link)")));
}

TEST_CASE("information and XMP agree, and the date is the document's") {
    const std::string pdf = pdf_of(two_pages());
    const std::string info = seen_by("TZ=UTC pdfinfo", pdf), packet = seen_by("pdfinfo -meta", pdf);
    CHECK(std::regex_search(info, std::regex("Title: +Report 17 \u2212 X\n")));
    CHECK(std::regex_search(info, std::regex("CreationDate: +Mon Mar +2 09:20:30 2026 UTC")));
    CHECK(packet.find("Report 17 \u2212 X</rdf:li>") != std::string::npos);
    CHECK(packet.find("Nobody &amp; Sons") != std::string::npos);
    CHECK(packet.find("<xmp:CreateDate>2026-03-02T10:20:30+01:00</xmp:CreateDate>") != std::string::npos);
    CHECK(packet.find("<pdfaid:conformance>A</pdfaid:conformance>") != std::string::npos);
}

TEST_CASE("page labels and bookmarks are those of the pages") {
    std::vector<frame::Frame> pages = two_pages();
    pages[0].label = "i";
    pages[1].label = "7";
    const std::string file = plain(pdf_of(pages));
    CHECK(count(file, "/P (i)") == 1);
    CHECK(count(file, "/St 7") == 1);
    CHECK(count(file, "/Title (Summary)") == 1);
    CHECK(std::regex_search(file, std::regex(R"(/Count 2\s+/First)")));
}

TEST_CASE("an attachment comes out byte for byte") {
    const std::string bytes = "{\"a\": \"\u00b5\"}\n" + std::string("\0x", 2);
    const output::Attachment data{
        .name = "result.json", .mime = "application/json", .bytes = bytes, .description = "The result document"};
    const TemporaryFolder folder;
    const std::string pdf = folder.file("report.pdf", output::pdf(two_pages(), about(), shaper(), {data}));
    CHECK(run("pdfdetach -save 1 -o " + (folder / "out.json") + " " + pdf).code == 0);
    CHECK(support::file_bytes(folder / "out.json") == bytes);
    CHECK(count(plain(support::file_bytes(pdf)), "/AFRelationship /Source") == 1);
}

TEST_CASE("a coordinate that is not finite or off any page is an error, not a broken file") {
    frame::Path path = rule(0, 0, std::numeric_limits<double>::quiet_NaN(), 0);
    CHECK_THROWS_AS(pdf_of({path}), files::OutputFailed);
    CHECK_THROWS_AS(pdf_of({rule(0, 0, 1e12, 0)}), files::OutputFailed);
    CHECK_THROWS_AS(output::pdf({{units::point(1e12), units::point(100), "", {}}}, about(), shaper()), files::OutputFailed);
    CHECK_THROWS_AS(output::pdf({}, about(), shaper()), files::OutputFailed);
}

TEST_CASE("structure that no reader could follow is our own fault and said so") {
    const frame::Link lost{.box = box(0, 0, 10, 10), .destination = "nowhere"};
    CHECK_THROWS_WITH(pdf_of({lost}), Catch::Contains("nowhere"));
    CHECK_THROWS_WITH(pdf_of({group(Role::TableRow, words("x", 10, 10))}), Catch::Contains("cell"));
    const frame::Link web{.box = box(0, 0, 10, 10), .uri = "https://example.com"};
    CHECK_THROWS_WITH(pdf_of({group(Role::Artifact, {web})}), Catch::Contains("artifact"));
}

TEST_CASE("pictures are drawn: PNG without interpolation, SVG as vectors, SVG with text as pixels") {
    frame::Frame dot{units::point(10), units::point(10), "", {}};
    const auto bytes = [](std::string text) { return std::make_shared<const std::string>(std::move(text)); };
    const auto figure_of = [](frame::Image image) {
        frame::Group made = group(Role::Figure, {std::move(image)});
        made.alternative = "logo";
        return made;
    };
    const frame::Image png{box(10, 10, 50, 20), frame::Image::Format::Png, bytes(output::png(dot, shaper()))};
    const std::string with_png = plain(pdf_of({figure_of(png)}));
    CHECK(count(with_png, "/Subtype /Image") == 1);
    CHECK(count(with_png, "/Interpolate true") == 0);
    const std::string start = R"(<svg xmlns="http://www.w3.org/2000/svg" width="20" height="10">)";
    const frame::Image drawing{box(10, 10, 50, 20), frame::Image::Format::Svg,
                               bytes(start + R"(<path d="M0 0L20 10" stroke="#000"/></svg>)")};
    CHECK(count(plain(pdf_of({figure_of(drawing)})), "/Subtype /Image") == 0);
    const frame::Image lettered{box(10, 10, 50, 20), frame::Image::Format::Svg,
                                bytes(start + R"(<text x="1" y="9">ab</text></svg>)")};
    CHECK(count(plain(pdf_of({figure_of(lettered)})), "/Subtype /Image") >= 1);
    const frame::Image broken{box(10, 10, 50, 20), frame::Image::Format::Svg, bytes("<svg")};
    CHECK_THROWS_AS(pdf_of({figure_of(broken)}), output::PictureRefused);
}
