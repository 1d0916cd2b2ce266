#include "document/read_document.hpp"
#include "layouts/layout.hpp"
#include "produce/produce.hpp"
#include "support/run.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <random>

/// How large files may be, in bytes.
using namespace wayfolio;
using Json = nlohmann::json;

namespace {

constexpr std::size_t most_of_a_report = 180'000, most_of_a_figure = 45'000, most_of_a_page_of_a_trace = 120'000;

const std::filesystem::path samples = std::filesystem::path(WAYFOLIO_SOURCE_FOLDER) / "sample-results";

/// The six quantities of the long axis as found, at 49 targets in place of 27, five runs each way.
Json six_quantities_at_49_targets() {
    std::ifstream file(samples / "long-axis.json");
    Json document = Json::parse(file), found = Json::array();
    std::mt19937 random(49);
    const auto even = [&] { return static_cast<double>(random()) / 4294967296.0 - 0.5; };
    const auto hundredths = [](double value) { return std::round(value * 100) / 100; };
    for (Json& series : document["series"]) {
        if (series["state"] != "as-found") continue;
        const auto old = series["targets"].get<std::vector<double>>();
        std::vector<double> targets;
        for (int i = 0; i < 49; ++i)
            targets.push_back(hundredths(old.front() + (old.back() - old.front()) * (i + (i % 48 == 0 ? 0 : 0.3 * even())) / 48));
        for (Json& run : series["runs"]) {
            Json readings = Json::array();
            for (const double target : targets) {
                const auto next = std::min<std::size_t>(std::ranges::upper_bound(old, target) - old.begin(), old.size() - 1);
                const double share = (target - old[next - 1]) / (old[next] - old[next - 1]);
                const double before = run["deviations"][next - 1], after = run["deviations"][next];
                readings.push_back(hundredths(before + (after - before) * share + 0.4 * even()));
            }
            run["deviations"] = std::move(readings);
        }
        series["targets"] = targets;
        found.push_back(std::move(series));
    }
    document["series"] = std::move(found);
    return document;
}

struct Made {
    document::Document document;
    evaluate::Evaluation evaluation = evaluate::evaluate(document);
    layouts::Layout layout;
    produce::Drawing drawing{document, evaluation, layout, testing::shaper()};

    Made(document::Document read, const char* name) : document(std::move(read)), layout(layouts::read_layout(name, "")) {}
};

}  // namespace

TEST_CASE("the finished report of six quantities is small, with tags, fonts and all data in it") {
    CHECK(produce::report_pdf(Made(document::read_document(samples / "short-axis.json"), "report").drawing).size() <= most_of_a_report);
}

TEST_CASE("a figure of 49 targets and five runs each way is small as SVG, with the numbers that it shows") {
    const support::TemporaryFolder folder;
    const Made made(document::read_document(folder.file("six.json", six_quantities_at_49_targets().dump())), "report");
    std::size_t figures = 0;
    for (const produce::FigureName& name : produce::figure_names(made.document, made.evaluation)) {
        if (name.series.empty()) continue;
        CAPTURE(name.series, name.name);
        const std::string svg = produce::figure_bytes(made.drawing, name, {produce::FigureFormat::Svg});
        CHECK(svg.size() <= most_of_a_figure);
        CHECK(svg.find("\"mean_positive\":") != std::string::npos);
        ++figures;
    }
    CHECK(figures >= 18);
}

TEST_CASE("the page of a trace of so many samples that it lies apart is small, however many they are") {
    const support::TemporaryFolder folder;
    std::string trace = "position,value\n";
    constexpr int count = 600'000;
    std::mt19937 random(10);
    for (int i = 0; i < count; ++i) {
        const double way = 2000.0 * i / (count - 1), x = way <= 1000 ? way : 2000 - way;
        const double y = x * (1000 - x) / 40'000 + 2 * std::fmod(x / 10, 1) + static_cast<double>(random()) / 4294967296.0;
        trace += fmt::format("{:.4f},{:.3f}\n", x, y);
    }
    folder.file("t.csv", trace);
    const auto document = folder.file("trace.json", R"({"format": "wayfolio-result", "version": 1,
        "job": {"number": "K-1", "title": "Trace", "data_notice": "Invented data"},
        "series": [{"id": "y", "error": "EYX", "unit": "um", "position_unit": "mm", "targets": [100, 500, 900],
                    "trace": {"file": "t.csv", "pitch": 10}}]})");
    const Made made(document::read_document(document), "summary");
    CHECK(produce::report_pages(made.drawing).size() == 1);
    CHECK(produce::report_pdf(made.drawing).size() <= most_of_a_page_of_a_trace);
    const auto figure = produce::figure_names(made.document, made.evaluation).at(0);
    CHECK(produce::figure_bytes(made.drawing, figure, {produce::FigureFormat::Pdf}).size() <= most_of_a_page_of_a_trace);
}
