#include "produce/produce.hpp"
#include "document/read_document.hpp"
#include "support/pixels.hpp"
#include "support/run.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <cmath>
#include <set>

using namespace wayfolio;
using support::run;
using support::TemporaryFolder;

namespace {

/// What a browser shows of an SVG at two pixels to one of CSS.
testing::Pixels seen_in_chromium(const TemporaryFolder& folder, const std::string& svg, int width, int height) {
    const std::string png = folder / "browser.png";
    const std::string command = fmt::format(
        "timeout 60 chromium --headless --no-sandbox --disable-gpu --disable-dev-shm-usage --hide-scrollbars --user-data-dir={} --force-device-scale-factor=2 --window-size={},{} "
        "--screenshot={} file://{} > /dev/null 2>&1", folder / "profile", width, height, png, svg);
    REQUIRE(run(command).code == 0);
    return testing::read_png(png);
}

}  // namespace

TEST_CASE("an SVG figure is the same picture in rsvg-convert and in Chromium, where there is one") {
    if (run("command -v chromium > /dev/null").code != 0) {
        WARN("not shown: no Chromium is installed");
        return;
    }
    const auto document = document::read_document(std::filesystem::path(WAYFOLIO_SOURCE_FOLDER) / "sample-results/short-axis.json");
    const auto evaluation = evaluate::evaluate(document);
    const auto layout = layouts::read_layout("report", "");
    const produce::Drawing drawing{document, evaluation, layout, testing::shaper()};
    std::set<std::string> kinds;  // one figure of each kind and unit
    for (const produce::FigureName& name : produce::figure_names(document, evaluation)) {
        const bool angle = !name.series.empty() && evaluate::find_series(evaluation, name.series)->kind == evaluate::SeriesKind::Angle;
        if (!kinds.insert(name.name + (angle ? " of an angle" : "")).second) continue;
        CAPTURE(name.series, name.name);
        const TemporaryFolder folder;
        const frame::Frame frame = produce::figure(drawing, name);
        // CSS has 96 pixels to the inch.
        constexpr double css_of_point = 96.0 / 72;
        const int width = static_cast<int>(std::floor(frame.width.in(units::point) * css_of_point)), height = static_cast<int>(std::floor(frame.height.in(units::point) * css_of_point));
        const std::string svg = folder.file("figure.svg", produce::figure_bytes(drawing, name, produce::FigureFormat::Svg)), png = folder / "rsvg.png";
        REQUIRE(run("rsvg-convert -d 192 -p 192 -b white -o " + png + " " + svg).code == 0);
        const testing::Pixels browser = testing::cut(seen_in_chromium(folder, svg, width, height), 2 * width, 2 * height), other = testing::cut(testing::read_png(png), 2 * width, 2 * height);
        // Both smooth edges in their own way; a letter or line that is missing or elsewhere turns ink to paper.
        constexpr int between_edge_and_ink = 128;
        CHECK(testing::share_of_pixels_that_differ(browser, other, between_edge_and_ink) < 0.0001);
    }
    CHECK(kinds.size() >= 5);
}
