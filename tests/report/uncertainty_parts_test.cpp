#include "document/read_document.hpp"
#include "report/blocks/blocks.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace wayfolio;

namespace {

double shares_of(const report::UncertaintyRow& row) {
    double sum = 0;
    for (const auto& part : row.parts) sum += part.share;
    return sum;
}

}  // namespace

TEST_CASE("parts of U add up to it wherever it is divided, a known bias among them") {
    for (const char* name : {"sample-results/long-axis.json", "sample-results/two-axes.json", "sample-results/rotary-axis.json",
                             "tests/golden/awkward/surroundings-and-budgets.json", "tests/golden/awkward/rotary-found-and-left.json"}) {
        const support::Reported made{document::read_document(std::filesystem::path(WAYFOLIO_SOURCE_FOLDER) / name)};
        const auto page = report::uncertainty(made.subject());
        REQUIRE(page);
        bool divided = false;
        for (const auto& row : page->rows) {
            INFO(name << " " << row.name.words());
            if (row.parts.empty()) CHECK_FALSE(row.not_divided.words().empty());
            else CHECK(shares_of(row) == Approx(1).margin(1e-9));
            divided = divided || !row.parts.empty();
        }
        CHECK(divided);
    }
}
