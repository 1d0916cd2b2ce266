#include "commands/program.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace wayfolio::testing;
using wayfolio::support::file_bytes;
using Catch::Matchers::Contains;
using Catch::Matchers::Matches;
using Catch::Matchers::StartsWith;

namespace {

const std::string two_axes = source_folder + "/sample-results/two-axes.json";
const std::string tables = source_folder + "/tests/golden/awkward/compensation-tables.json";

}  // namespace

TEST_CASE("a compensation table is written with its head before its numbers, in both formats") {
    const TemporaryFolder folder;
    CHECK(called_with("compensation " + two_axes + " -o " + folder / "x.csv").code == 0);
    const std::string csv = file_bytes(folder / "x.csv");
    CHECK_THAT(csv, StartsWith("# Compensation table of axis X, from series x-exx-found of job WF-1805, revision 0\n"));
    CHECK_THAT(csv, Contains("# Before loading, check sign, unit, reference point and direction") &&
                        Contains("# Invented data for demonstration"));
    CHECK_THAT(
        csv,
        Contains(
            "\nposition_mm,correction_positive_um,change_positive_um,correction_negative_um,change_negative_um\n0,0,0,0,0\n100,"));
    CHECK_THAT(csv, Matches("[^]*\n# Predicted, measure again: A [0-9]+\\.[0-9]{3} um\n[^]*"));  // the head is for people
    CHECK(called_with("compensation " + two_axes + " --axis X -o " + folder / "x.json").code == 0);
    const auto json = nlohmann::json::parse(file_bytes(folder / "x.json"));
    CHECK(json.at("format") == "wayfolio-compensation");
    CHECK(json.at("points_positive").size() == 9);
    CHECK(json.at("cautions").size() == 2);
}

TEST_CASE("a refused table is not written; its reasons are told and the exit code is 1") {
    const TemporaryFolder folder;
    const Ran ran = called_with("compensation " + tables + " --table 2 -o " + folder / "x.csv");
    CHECK(ran.code == 1);
    CHECK_THAT(ran.err, Contains("no compensation table of axis X: the reference 600 mm lies outside the measured range -100 to 400 mm"));
    CHECK_FALSE(std::filesystem::exists(folder / "x.csv"));
}

TEST_CASE("of several tables the command asks which, and lists them") {
    const Ran ran = called_with("compensation " + tables + " --axis X -o -");
    CHECK(ran.code == 2);
    CHECK_THAT(ran.err, Contains("several tables match: choose one with --axis or --table:") && Contains("table 3: axis X from x-one-way"));
    CHECK_THAT(called_with("compensation " + tables + " --table 9 -o -").err, Contains("there is no table 9"));
    for (const char* number : {"0", "-1"}) {
        const Ran none = called_with("compensation " + two_axes + " --table " + number + " -o -");
        CHECK(none.code == 2);
        CHECK(none.out.empty());
        CHECK_THAT(none.err, Contains("tables are numbered from 1"));
    }
    CHECK_THAT(called_with("compensation " + tables + " --axis Q -o -").err, Contains("no table of axis Q"));
    CHECK_THAT(called_with("compensation " + smallest + " -o -").err, Contains("asks for no compensation table"));
    CHECK_THAT(called_with("compensation " + two_axes + " -o x.txt").err, Contains("unknown format"));
}

TEST_CASE("a rotary table goes to standard output in degrees and arc seconds") {
    const Ran ran = called_with("compensation " + tables + " --axis C -o -");
    CHECK(ran.code == 0);
    CHECK_THAT(ran.out, Contains("\nposition_deg,correction_arcsec,change_arcsec\n0,0,0\n30,"));
}
