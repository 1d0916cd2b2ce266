#include "frame/bounds.hpp"
#include "document/read_document.hpp"
#include "plot/tools.hpp"
#include "support/all_documents.hpp"
#include "support/drawn_plot.hpp"
#include "support/frame_parts.hpp"
#include "support/pictures.hpp"
#include "support/small_documents.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

namespace wayfolio::testing {
namespace {

const std::filesystem::path source_folder = WAYFOLIO_SOURCE_FOLDER;

/// A sample of the project, as JSON.
nlohmann::json sample(const char* name) {
    std::ifstream file(source_folder / "sample-results" / name);
    return nlohmann::json::parse(file);
}

std::vector<frame::GlyphRun> runs_with(const frame::Frame& page, const std::string& words) {
    std::vector<frame::GlyphRun> found;
    for (const frame::GlyphRun& run : runs_in(page.items))
        if (run.text.find(words) != std::string::npos) found.push_back(run);
    return found;
}

/// Where the whole part of the number that a run begins with ends.
double point_of(const frame::GlyphRun& run, const layouts::Layout& layout) {
    const plot::Tools tools{layout, shaper()};
    const auto size = run.size.in(units::point) > 8 ? plot::TypeRole::Body : plot::TypeRole::Small;
    const std::string whole = run.text.substr(0, run.text.find('.'));
    return (run.origin.x + plot::width_of(tools, report::Text(whole), {.type = size})).in(units::point);
}

/// Baselines of the limits under the values.
std::vector<double> limit_baselines(const frame::Frame& page) {
    std::vector<double> found;
    for (const frame::GlyphRun& run : runs_with(page, "limit "))
        if (run.text.starts_with("limit ")) found.push_back(y_of(run.origin));
    std::ranges::sort(found);
    return found;
}

}  // namespace

TEST_CASE("values of the answer stand with their points in line, their limits under them at one place", "[pictures]") {
    for (const char* name : {"short-axis.json", "long-axis.json", "rotary-axis.json", "two-axes.json"}) {
        CAPTURE(name);
        DrawnDocument drawn(sample(name));
        const frame::Frame page = drawn.pages("answer").at(0);
        const double left = drawn.layout.grid().left.in(units::point);
        std::size_t values = 0;
        for (const frame::GlyphRun& run : runs_with(page, "\u00a0±\u202f")) {
            if (x_of(run.origin) > left + 205 || run.text.find('.') == std::string::npos) continue;
            ++values;
            CHECK(point_of(run, drawn.layout) == Approx(left + 205).margin(0.01));
        }
        CHECK(values >= drawn.evaluation.decisions.size() / 2);
        for (const frame::GlyphRun& run : runs_with(page, "limit "))
            if (run.text.starts_with("limit ")) CHECK(x_of(run.origin) == Approx(left + 193).margin(hairline));
    }
}

TEST_CASE("numbers of an uncertainty stand apart in their row: 2.00 and 95 % were read as one", "[pictures]") {
    std::size_t pairs = 0;
    for (const auto& path : documents_in({"sample-results", "tests/golden/awkward"})) {
        const auto document = document::read_document(path);
        const auto evaluation = evaluate::evaluate(document);
        const auto layout = layouts::read_layout("report", "A4");
        const auto is_row = [](const frame::Group& group) { return group.role == frame::Role::TableRow; };
        for (const frame::Frame& page : produce::report_pages({document, evaluation, layout, shaper()}))
            for (const frame::Group* table : groups_where(page.items, [](const auto& one) { return one.continues == "uncertainties"; }))
                for (const frame::Group* row : groups_where(table->items, is_row)) {
                    std::vector<frame::Rect> cells;
                    for (const frame::Item& cell : row->items)
                        if (const auto box = frame::bounds({cell})) cells.push_back(*box);
                    for (std::size_t i = 1; i < cells.size(); ++i) {
                        CAPTURE(path.filename().string(), page.label, words_of(row->items));
                        ++pairs;
                        // A unit stands close to its U, as everywhere.
                        CHECK((cells[i].left - cells[i - 1].right()).in(units::point) > (i + 2 >= cells.size() ? 1.5 : 3));
                    }
                }
    }
    CHECK(pairs > 300);
}

TEST_CASE("rows of the answer are 24 pt apart, over ten of them 20 pt", "[pictures]") {
    for (const auto& [name, pitch, rows] : {std::tuple{"rotary-axis.json", 24.0, 3U}, {"short-axis.json", 20.0, 12U}}) {
        CAPTURE(name);
        DrawnDocument drawn(sample(name));
        const auto baselines = limit_baselines(drawn.pages("answer").at(0));
        REQUIRE(baselines.size() == rows);
        for (std::size_t i = 1; i < baselines.size(); ++i) CHECK(baselines[i] - baselines[i - 1] == Approx(pitch).margin(0.01));
    }
}

TEST_CASE("what answers nothing is grey from its heading to its rule, words and drawings alike", "[pictures]") {
    DrawnDocument drawn(sample("long-axis.json"));
    drawn.layout.blocks = {"answer", "remarks"};  // alone, it would be a summary
    const auto pages = produce::report_pages(drawn.drawing());
    bool found = false;
    for (const frame::Frame& page : pages) {
        const auto headings = runs_with(page, "Superseded, as found 2026-04-21");
        if (headings.empty()) continue;
        found = true;
        const double top = y_of(headings[0].origin), left = drawn.layout.grid().left.in(units::point);
        std::size_t rows = 0;
        double bottom = top;
        for (const frame::GlyphRun& run : runs_in(page.items)) {
            if (y_of(run.origin) <= top || y_of(run.origin) > top + 12 * 18 || run.size.in(units::point) > 8) continue;
            CAPTURE(run.text);
            CHECK(run.colour == colour_called(drawn.layout, "grey"));
            rows += x_of(run.origin) == left ? 1 : 0;
            bottom = std::max(bottom, y_of(run.origin));
        }
        CHECK(rows >= 13);  // eleven limits, mean error and mean reversal
        for (const frame::Path& path : paths_in(page.items)) {
            const auto box = *frame::bounds(path);
            if (box.top.in(units::point) < top + 3 || box.bottom().in(units::point) > bottom) continue;
            if (path.stroke) CHECK(path.stroke->colour != colour_called(drawn.layout, "ink"));
            if (path.fill) CHECK(*path.fill != colour_called(drawn.layout, "ink"));
        }
    }
    CHECK(found);
}

TEST_CASE("the bar of a probability is as much of its line as the probability says", "[pictures]") {
    DrawnDocument drawn(small::judged("guard-band-both-sides", 6.2));
    const frame::Frame page = drawn.pages("answer").at(0);
    const double probability = *drawn.evaluation.decisions.at(0).probability_of_conformity;
    const auto group = group_of(page.items, "probability");
    const auto paths = paths_in(group.items);
    const auto bar = std::ranges::find_if(paths, [](const frame::Path& path) { return path.fill.has_value(); });
    REQUIRE(bar != paths.end());
    CHECK(frame::bounds(*bar)->width.in(units::point) / 22 == Approx(probability));
    CHECK_FALSE(runs_with(page, std::to_string(static_cast<int>(std::lround(100 * probability))) + "\u202f%").empty());
    DrawnDocument without(small::judged("simple", 9, 0));
    CHECK_THROWS(group_of(without.pages("answer").at(0).items, "probability"));
}

TEST_CASE("the small band of A runs along mean ± 2 s of both approaches", "[pictures]") {
    DrawnDocument drawn(small::positioning());
    const frame::Frame page = drawn.pages("answer").at(0);
    std::vector<frame::Path> edges;
    for (const frame::Path& path : paths_in(page.items))
        if (has_pen(path, pen_called(drawn.layout, "band_edge")) && points_of(path).size() == drawn.series("x").targets.size())
            edges.push_back(path);
    REQUIRE(edges.size() == 2);
    std::vector<double> upper, lower;
    for (const auto& target : drawn.series("x").targets) {
        const auto at = [&](document::Approach approach, double twice) {
            const auto& [n, mean, s, R] = target.one_way[approach];
            return mean->in(units::micrometre) + twice * s->in(units::micrometre);
        };
        using enum document::Approach;
        upper.push_back(std::max(at(Positive, 2), at(Negative, 2)));
        lower.push_back(std::min(at(Positive, -2), at(Negative, -2)));
    }
    const auto up = points_of(edges[0]), down = points_of(edges[1]);
    REQUIRE(up.size() == upper.size());
    // One scale for both: through the first of each.
    const ReadScale scale(y_of(up[0]), upper[0], y_of(down[0]), lower[0]);
    for (std::size_t i = 0; i < up.size(); ++i) {
        CHECK(scale.at(y_of(up[i])) == Approx(upper[i]).margin(hairline));
        CHECK(scale.at(y_of(down[i])) == Approx(lower[i]).margin(hairline));
    }
}

TEST_CASE("the issuer stands in place of the first page's head, with report, edition and page beside it", "[pictures]") {
    DrawnDocument drawn(sample("long-axis.json"));
    const auto pages = drawn.pages("answer");
    const double left = drawn.layout.grid().left.in(units::point), margin = drawn.layout.grid().margin_left.in(units::point);
    CHECK(runs_with(pages.at(0), "WF-2041, revision 1").empty());
    const auto at = [&](const std::string& words, double x, double y) {
        CAPTURE(words);
        const auto runs = runs_with(pages.at(0), words);
        REQUIRE_FALSE(runs.empty());
        CHECK(x_of(runs[0].origin) == Approx(x).margin(0.01));
        CHECK(y_of(runs[0].origin) == Approx(y).margin(0.01));
    };
    at("Example Calibration Laboratory", left, 43.5);
    at("not accredited", left, 63.5);
    at("Calibration report WF-2041", margin, 43.5);
    at("Revision 1 of 2026-04-23", margin, 53.5);
    at("replaces revision 0", margin, 63.5);
    at("Page 1 of ", margin, 73.5);
    // Never more than five lines, whatever the laboratory has to say.
    nlohmann::json wordy = sample("long-axis.json");
    wordy["job"]["laboratory"]["address"] = {std::string(400, 'a'), std::string(300, 'b')};
    DrawnDocument long_words(wordy);
    for (const frame::GlyphRun& run : runs_in(long_words.pages("answer").at(0).items))
        CHECK((y_of(run.origin) < 84 || y_of(run.origin) > 100));
}

}  // namespace wayfolio::testing
