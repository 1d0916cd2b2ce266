#include "plan/sheet.hpp"

#include "support/frame_checks.hpp"
#include "support/frame_parts.hpp"
#include "support/sample_pages.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::plan;

namespace {

Planned planned_for(double to_mm, std::size_t runs, std::size_t targets) {
    PlanRequest request{.errors = {*document::error_symbol("EXX"), *document::error_symbol("EBX")},
                        .range = Range{0, to_mm, units::position_millimetre},
                        .runs = runs,
                        .targets = targets,
                        .feed = 3000,
                        .dwell_s = 3,
                        .states = {"as-found"}};
    return plan::plan(request);
}

std::vector<frame::Frame> pages_for(const Planned& planned, const std::string& paper) {
    return sheet_pages(planned, layouts::read_layout("report", paper), testing::shaper());
}

std::size_t count_rows(const std::vector<frame::Frame>& pages) {
    std::size_t rows = 0;
    for (const frame::Frame& page : pages)
        rows += testing::groups_where(page.items, [](const frame::Group& group) { return group.role == frame::Role::TableRow; }).size();
    return rows;
}

}  // namespace

TEST_CASE("a sheet keeps on its pages, whatever the paper and however many targets and runs there are") {
    for (const std::string paper : {"A4", "Letter"})
        for (const auto& [runs, targets] : {std::pair<std::size_t, std::size_t>{1, 3}, {5, 27}, {5, 60}, {12, 200}}) {
            CAPTURE(paper, runs, targets);
            for (const frame::Frame& page : pages_for(planned_for(19'999, runs, targets), paper)) CHECK(testing::page_faults(page).empty());
        }
}

TEST_CASE("every target has a row in every series, for each ten runs, and below the last stand the rows for time and temperatures") {
    const std::size_t plain = count_rows(pages_for(planned_for(6400, 5, 27), "A4"));
    CHECK(plain == 2 * (27 + 3 + 1));
    // 200 targets of 24 runs: three tables of 200 rows for each series, each page of which begins with a head
    const auto pages = pages_for(planned_for(19'999, 12, 200), "A4");
    CHECK(count_rows(pages) == 2 * 3 * (200 + 3) + (pages.size() - 1));
}

TEST_CASE("the sheet is a PDF, byte for byte the same each time") {
    const Planned planned = planned_for(800, 5, 6);
    const layouts::Layout layout = layouts::read_layout("report", "");
    const std::string pdf = sheet_pdf(planned, layout, testing::shaper());
    CHECK(pdf.starts_with("%PDF-"));
    CHECK(pdf == sheet_pdf(planned, layout, testing::shaper()));
}
