#include "document/read_document.hpp"
#include "frame/bounds.hpp"
#include "frame/walk.hpp"
#include "produce/produce.hpp"
#include "support/pixels.hpp"
#include "support/run.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <regex>
#include <set>

using namespace wayfolio;
using support::run;
using support::TemporaryFolder;

namespace {

/// As our own PNGs are made, and four times as fine.
const std::string usual = "150", fine = "600";

/// What rsvg-convert shows of an SVG.
testing::Pixels of_svg(const TemporaryFolder& folder, const std::string& svg, const std::string& dots = usual) {
    const std::string file = folder.file("figure.svg", svg), png = folder / "svg.png";
    REQUIRE(run("rsvg-convert -d " + dots + " -p " + dots + " -b white -o " + png + " " + file).code == 0);
    return testing::read_png(png);
}

/// Each pixel the mean of a square of pixels.
testing::Pixels shrunk(const testing::Pixels& large, int by) {
    testing::Pixels small{.width = large.width / by, .height = large.height / by, .red = {}, .green = {}, .blue = {}};
    const auto mean = [&](const std::vector<unsigned char>& channel, int left, int top) {
        int sum = 0;
        for (int y = top; y < top + by; ++y)
            for (int x = left; x < left + by; ++x) sum += channel.at(static_cast<std::size_t>(y * large.width + x));
        return static_cast<unsigned char>(sum / (by * by));
    };
    for (int y = 0; y < small.height; ++y)
        for (int x = 0; x < small.width; ++x) {
            small.red.push_back(mean(large.red, x * by, y * by));
            small.green.push_back(mean(large.green, x * by, y * by));
            small.blue.push_back(mean(large.blue, x * by, y * by));
        }
    return small;
}

/// What poppler shows of a PDF: it moves every glyph to a whole pixel, so these must be fine.
testing::Pixels of_pdf(const TemporaryFolder& folder, const std::string& pdf) {
    const std::string file = folder.file("figure.pdf", pdf), root = folder / "pdf";
    REQUIRE(run("pdftocairo -png -singlefile -r " + fine + " " + file + " " + root).code == 0);
    return testing::read_png(root + ".png");
}

/// Each rounds the sheet's size and smooths edges in its own way; a letter or line that is missing or elsewhere turns ink to
/// paper.
double share_that_differs(const testing::Pixels& one, const testing::Pixels& other) {
    const int width = std::min(one.width, other.width), height = std::min(one.height, other.height);
    CHECK(std::max(one.width, other.width) <= width + 1);
    CHECK(std::max(one.height, other.height) <= height + 1);
    constexpr int between_edge_and_ink = 128;
    return testing::share_of_pixels_that_differ(testing::cut(one, width, height), testing::cut(other, width, height),
                                                between_edge_and_ink);
}

/// In a PDF Cairo rounds the widths of glyphs: the end of a long title stands a fifth of a pixel aside, and a few of its edges turn.
constexpr double edges_of_a_title = 0.0003;

struct Short {
    document::Document document =
        document::read_document(std::filesystem::path(WAYFOLIO_SOURCE_FOLDER) / "sample-results/short-axis.json");
    evaluate::Evaluation evaluation = evaluate::evaluate(document);
    layouts::Layout layout = layouts::read_layout("report", "");
    produce::Drawing drawing{document, evaluation, layout, testing::shaper()};

    /// One figure of each kind and unit.
    [[nodiscard]] std::vector<produce::FigureName> figures() const {
        std::vector<produce::FigureName> chosen;
        std::set<std::string> kinds;
        for (const produce::FigureName& name : produce::figure_names(document, evaluation)) {
            const bool angle =
                !name.series.empty() && evaluate::find_series(evaluation, name.series)->kind == evaluate::SeriesKind::Angle;
            if (kinds.insert(name.name + (angle ? " of an angle" : "")).second) chosen.push_back(name);
        }
        return chosen;
    }
};

}  // namespace

TEST_CASE("a figure is the same picture as SVG in rsvg-convert, as PDF in poppler, and as our own PNG", "[again]") {
    const Short made;
    const auto figures = made.figures();
    CHECK(figures.size() >= 5);
    for (const produce::FigureName& name : figures) {
        CAPTURE(name.series, name.name);
        const TemporaryFolder folder;
        const auto bytes = [&](produce::FigureFormat format) { return produce::figure_bytes(made.drawing, name, {format}); };
        const testing::Pixels png = testing::read_png(folder.file("figure.png", bytes(produce::FigureFormat::Png)));
        const std::string svg = bytes(produce::FigureFormat::Svg);
        CHECK(share_that_differs(of_svg(folder, svg), png) == 0);
        const testing::Pixels pdf = of_pdf(folder, bytes(produce::FigureFormat::Pdf));
        CHECK(share_that_differs(shrunk(of_svg(folder, svg, fine), 4), shrunk(pdf, 4)) < edges_of_a_title);
    }
}

TEST_CASE("one path that is missing is seen in that comparison") {
    const Short made;
    const produce::FigureName name = made.figures().at(0);
    const TemporaryFolder folder;
    std::string svg = produce::figure_bytes(made.drawing, name, {produce::FigureFormat::Svg});
    const testing::Pixels whole = of_svg(folder, svg);
    const std::size_t path = svg.rfind("<path"), end = svg.find("/>", path);
    REQUIRE(end != std::string::npos);
    svg.erase(path, end + 2 - path);
    CHECK(share_that_differs(of_svg(folder, svg), whole) > 0);
}

TEST_CASE("an SVG has no sheet behind it, and says for itself alone how it is drawn on a dark page") {
    const Short made;
    std::set<std::string> drawings;
    for (const produce::FigureName& name : made.figures()) {
        const std::string svg = produce::figure_bytes(made.drawing, name, {produce::FigureFormat::Svg});
        static const std::regex style(R"(<style>@media screen and \(prefers-color-scheme: dark\) \{#([a-z0-9-]+) \{)");
        std::smatch found;
        REQUIRE(std::regex_search(svg, found, style));
        CHECK(svg.find("<g id=\"" + found[1].str() + "\">") != std::string::npos);
        CHECK(drawings.insert(found[1]).second);
        const frame::Frame frame = produce::figure(made.drawing, name);
        const auto whole = [&](const frame::Rect& box) { return box.width >= frame.width && box.height >= frame.height; };
        frame::walk(frame.items, [&](const frame::Path& path) {
            if (path.fill) CHECK_FALSE(whole(*frame::bounds(path)));
        });
    }
    CHECK(drawings.size() > 3);
}

TEST_CASE("a PNG is as large as its resolution asks, and states it; a narrow figure is as wide as a phone") {
    const Short made;
    const produce::FigureName name = made.figures().at(0);
    const TemporaryFolder folder;
    for (const double dots_per_inch : {36.0, 150.0, 600.0})
        for (const auto width : {produce::FigureWidth::Column, produce::FigureWidth::Narrow}) {
            const std::string png = produce::figure_bytes(made.drawing, name, {produce::FigureFormat::Png, width, dots_per_inch});
            const testing::Pixels pixels = testing::read_png(folder.file("figure.png", png));
            const double points = width == produce::FigureWidth::Narrow ? 240 : 360;
            CHECK(pixels.width == static_cast<int>(std::lround(points * dots_per_inch / 72)));
            const std::size_t at = png.find("pHYs");
            REQUIRE(at != std::string::npos);
            const auto byte = [&](std::size_t i) { return static_cast<double>(static_cast<unsigned char>(png[at + 4 + i])); };
            const double dots_per_metre = ((byte(0) * 256 + byte(1)) * 256 + byte(2)) * 256 + byte(3);
            CHECK(std::abs(dots_per_metre * 0.0254 - dots_per_inch) < 0.02);
        }
}
