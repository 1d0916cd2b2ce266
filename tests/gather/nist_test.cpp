#include "evaluate/nist_data.hpp"
#include "gather/gathering.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numeric>

using namespace wayfolio;
using namespace wayfolio::gather;
using namespace wayfolio::gather::testing;

namespace {

/// SiRstv in the form in which NIST publishes its analyses of variance: sixty lines of text, then from line 61 on a row for each reading,
/// instrument and resistance between blanks, one instrument after the other. The sixty lines here are our own.
std::string sirstv_as_published() {
    std::string text = "Dataset Name:   SiRstv  (readings as published; these lines are not)\r\n";
    for (int line = 2; line < 60; ++line) text += "Line " + std::to_string(line) + ": \"text, and; marks\" 12 34.5\r\n";
    text += "Data:           Instrument     Resistance\r\n";
    for (std::size_t instrument = 0; instrument < 5; ++instrument)
        for (const std::vector<double>& readings : nist::silicon)
            text += fmt::format("                   {}           {:.4f}\r\n", instrument + 1, readings[instrument]);
    return text;
}

std::vector<double> numbers_of(const Node& list) {
    std::vector<double> numbers;
    for (const Node& item : list.items) numbers.push_back(std::stod(item.text));
    return numbers;
}

double mean_of(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

}  // namespace

TEST_CASE("NIST SiRstv in its published form is gathered, and gives its certified sums of squares") {
    const std::string mapping = mapping_of(
        R"("delimiter": "blanks", "quote": "none", "first_row": 61, "position": {"column": 1}, "approach": "positive", "run": "repeat",
           "values": [{"series": "x", "column": 2}])");
    const Gathered all = gathered(mapping, {{"x.dat", sirstv_as_published()}});
    CHECK(all.account.series.front().used == 25);
    CHECK(std::ranges::find(all.account.series.front().derived, "runs are counted by how often a target was read before") !=
          all.account.series.front().derived.end());
    const Node document = document_of(all);
    const Node& runs = *document.member("series")->items.front().member("runs");
    REQUIRE(runs.items.size() == 5);
    std::vector<std::vector<double>> by_instrument(5);
    for (const Node& run : runs.items) {
        const std::vector<double> readings = numbers_of(*run.member("deviations"));
        REQUIRE(readings.size() == 5);
        for (std::size_t place = 0; place < 5; ++place) by_instrument[place].push_back(readings[place]);
    }
    double within = 0, between = 0;
    std::vector<double> means;
    for (const auto& readings : by_instrument) {
        means.push_back(mean_of(readings));
        for (const double reading : readings) within += (reading - means.back()) * (reading - means.back());
    }
    for (const double mean : means) between += 5 * (mean - mean_of(means)) * (mean - mean_of(means));
    // Certified by NIST/ITL, Statistical Reference Datasets
    CHECK(between == Approx(5.11462616000000E-02).epsilon(1e-10));
    CHECK(within == Approx(2.16636560000000E-01).epsilon(1e-10));
}
