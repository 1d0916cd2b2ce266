#include "commands/program.hpp"
#include "support/light_records.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace wayfolio::testing;
using wayfolio::support::file_bytes;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

/// Machine S-1 nears its limit, S-2 has one visit.
void write_two_machines(const TemporaryFolder& folder) {
    for (int i = 0; i < 5; ++i)
        write_light_record(folder / std::to_string(i),
                           {.job = "K-" + std::to_string(i), .day = std::to_string(2020 + i) + "-01-10", .accuracy_um = 6 + 0.5 * i});
    write_light_record(folder / "other", {.job = "K-9", .serial = "S-2"});
}

Ran history_of(const TemporaryFolder& folder, const std::string& options) {
    return called_with("history " + folder.path().string() + " " + options);
}

}  // namespace

TEST_CASE("history prints a table with trend and warning, and the exit code stays 0") {
    const TemporaryFolder folder;
    write_two_machines(folder);
    const Ran ran = history_of(folder, "--serial S-1");
    CHECK(ran.code == 0);
    CHECK_THAT(ran.out, Contains("5 visits from 2020-01-10 to 2024-01-10") && Contains("Trend: rises by") &&
                            Contains("Warning: the line with U reaches the limit") && Contains("3/revision-0"));
    const auto json = nlohmann::json::parse(history_of(folder, "--serial S-1 --parameter E --json --as-indexed").out);
    CHECK(json["lines"].size() == 1);
}

TEST_CASE("the figure goes where its ending says, and the warnings to standard error", "[slow]") {
    const TemporaryFolder folder;
    write_two_machines(folder);
    const auto [ending, magic] = GENERATE(table<std::string, std::string>({{"svg", "<?xml"}, {"pdf", "%PDF"}, {"png", "\x89PNG"}}));
    const std::string file = folder / ("history." + ending);
    const Ran ran = history_of(folder, "--serial S-1 -o " + file);
    CHECK(ran.code == 0);
    CHECK(ran.out.empty());
    CHECK_THAT(ran.err, Contains("EXX E: the line with U reaches the limit"));
    CHECK_THAT(file_bytes(file), StartsWith(magic));
}

TEST_CASE("a history as PDF keeps the rules and carries its values") {
    const TemporaryFolder folder;
    write_two_machines(folder);
    const std::string pdf = folder / "history.pdf", carried = folder / "carried.json";
    REQUIRE(history_of(folder, "--serial S-1 -o " + pdf).code == 0);
    const Ran rules = called_with("conformance " + pdf);
    CAPTURE(rules.out);
    CHECK(rules.code == 0);
    REQUIRE(run("pdfdetach -savefile wayfolio-history.json -o " + carried + " " + pdf).code == 0);
    const Ran verified = called_with("verify " + pdf);
    CHECK(verified.code == 65);
    CHECK_THAT(verified.err, Contains("a history of several visits") && Contains("wayfolio history"));
    CHECK(file_bytes(carried) == history_of(folder, "--serial S-1 --json").out);
}

TEST_CASE("history refuses what is of no machine or of several, and names what there is", "[slow]") {
    const TemporaryFolder folder;
    write_two_machines(folder);
    const auto [options, said] = GENERATE(table<std::string, std::string>({
        {"", "2 machines match, but all matching records must be of one machine: choose with --serial: S-1, S-2"},
        {"--serial S1", "no machine has the serial number \"S1\" (did you mean \"S-1\"?); there are: S-1, S-2"},
        {"--serial S-1 --axis Q", "no visit matches all options"},
        {"--serial S-1 --parameter strightness", "the visits have no parameter \"strightness\""},
        {"--serial S-1 --json -o x.svg", "give one of the two"},
        {"--serial S-1 -o x.gif", "unknown format"},
        {"--serial S-1 --from 1.1.2020", "not a date"},
    }));
    const Ran ran = history_of(folder, options);
    CAPTURE(options);
    CHECK(ran.code == 2);
    CHECK(ran.out.empty());
    CHECK_THAT(ran.err, Contains(said));
}

TEST_CASE("history without a folder, without records, or with a damaged one") {
    const TemporaryFolder folder;
    CHECK(called_with("history").code == 2);
    CHECK(called_with("history " + folder / "none").code == 66);
    CHECK_THAT(history_of(folder, "").err, Contains("the catalogue holds no visit"));
    write_two_machines(folder);
    std::ofstream(folder / "2/revision-0/data/evaluation.json") << "{}";
    const Ran ran = history_of(folder, "--serial S-1");
    CHECK(ran.code == 1);
    CHECK_THAT(ran.out, Contains("4 visits"));
}
