#include "archive/record/making.hpp"
#include "archive/drawings.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::testing;
using Catch::Matchers::Contains;

namespace {

std::vector<fs::path> all_documents() {
    std::vector<fs::path> found;
    for (const char* folder : {"sample-results", "tests/golden/awkward"})
        for (const auto& entry : fs::directory_iterator(source / folder))
            if (entry.path().extension() == ".json" && entry.path().stem() != "script-without-font") found.push_back(entry.path());
    std::ranges::sort(found);
    return found;
}

/// Drawn again from nothing but the PDF.
std::string redrawn(const std::string& pdf, std::optional<layouts::Layout> layout = std::nullopt, const std::string& paper = "") {
    const archive::Making making = archive::read_making(archive::carried_files(pdf, "job.pdf"), "job.pdf");
    const archive::Remade remade = archive::remake(making, std::move(layout), paper);
    return archive::draw_pdf({remade.document, remade.evaluation, remade.layout, shaper()}, making);
}

}  // namespace

TEST_CASE("every sample's report is drawn again from its own PDF, byte for byte", "[slow][again]") {
    const auto documents = all_documents();
    REQUIRE(documents.size() > 20);
    for (const fs::path& path : documents) {
        INFO(path);
        const bool shown = path.parent_path().filename() == "sample-results";
        const std::string pdf = Drawn(path, shown ? "report" : "summary").pdf();
        CHECK(redrawn(pdf) == pdf);
    }
}

TEST_CASE("a figure's PDF is drawn again from its own data", "[slow]") {
    const Drawn made(source / "sample-results/short-axis.json", "figures", "Letter");
    const auto figures = produce::figure_names(made.document, made.evaluation);
    REQUIRE(figures.size() > 5);
    for (const auto& figure : figures) {
        INFO(figure.series << " " << figure.name);
        const std::string pdf = produce::figure_bytes(made.drawing(), figure, {produce::FigureFormat::Pdf});
        CHECK(redrawn(pdf) == pdf);
    }
}

TEST_CASE("another layout and paper give what the document itself would give") {
    const std::string pdf = Drawn(traced, "report", "A4").pdf();
    CHECK(redrawn(pdf, layouts::read_layout("summary", "Letter")) == Drawn(traced, "summary", "Letter").pdf());
    CHECK(redrawn(pdf, std::nullopt, "Letter") == Drawn(traced, "report", "Letter").pdf());
}

TEST_CASE("a layout of the user's own, and what it extends, come from the PDF and not from the disk") {
    const TemporaryFolder folder;
    folder.file("base.json", with(file_bytes(source / "layouts/summary.json"), "\"summary\"", "\"base\""));
    const std::string own = folder.file(
        "own.json",
        R"({"format": "wayfolio-layout", "version": 1, "name": "own", "title": "Own", "extends": "base.json", "decimal_mark": ","})");
    const std::string pdf = Drawn(smallest, own).pdf();
    fs::remove(own);
    fs::remove(folder / "base.json");
    CHECK(redrawn(pdf) == pdf);
}

TEST_CASE("what carries no data says so") {
    CHECK_THROWS_WITH(archive::carried_files("words", "x.pdf"),
                      Contains("x.pdf") && Contains("no PDF") && Contains("the folder of a record"));
    CHECK_THROWS_WITH(archive::carried_files("%PDF-1.7 and no more", "x.pdf"), Contains("a sound PDF"));
    frame::Frame page{units::point(100), units::point(100), "1", {}};
    for (frame::GlyphRun& run : text::placed(shaped("words only"), {units::point(10), units::point(50)}))
        page.items.emplace_back(std::move(run));
    CHECK_THROWS_WITH(redrawn(output::pdf({page}, {.title = "x"}, shaper())), Contains("wayfolio-inputs.json"));
}
