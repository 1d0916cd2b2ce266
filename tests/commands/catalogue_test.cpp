#include "commands/program.hpp"
#include "support/light_records.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace wayfolio::testing;
using Catch::Matchers::Contains;

TEST_CASE("the catalogue lists records of the record command, as text and as JSON") {
    const TemporaryFolder folder;
    REQUIRE(called_with("record " + smallest + " -o " + folder / "smallest").code == 0);
    write_light_record(folder / "other", {.job = "K-7", .serial = "S-7"});
    const Ran ran = called_with("catalogue " + folder.path().string());
    CAPTURE(ran.err);
    CHECK(ran.code == 0);
    CHECK_THAT(ran.out, Contains("smallest/revision-0") && Contains("K-7, revision 0") && Contains("2 visits"));
    const Ran found = called_with("catalogue " + folder.path().string() + " --serial S-7 --json --as-indexed");
    const auto json = nlohmann::json::parse(found.out);
    REQUIRE(json["visits"].size() == 1);
    CHECK(json["visits"][0]["verdict"] == "Inside");
}

TEST_CASE("a damaged record makes the exit code 1, and the rest is listed") {
    const TemporaryFolder folder;
    write_light_record(folder / "sound", {.job = "K-1"});
    const auto bag = write_light_record(folder / "bad", {.job = "K-2"});
    std::ofstream(bag / "data/evaluation.json") << "{}";
    const Ran ran = called_with("catalogue " + folder.path().string());
    CHECK(ran.code == 1);
    CHECK_THAT(ran.err, Contains("bad/revision-0: data/evaluation.json: changed"));
    CHECK_THAT(ran.out, Contains("K-1") && !Contains("K-2"));
}

TEST_CASE("the catalogue says what it needs") {
    const TemporaryFolder folder;
    CHECK(called_with("catalogue").code == 2);
    CHECK(called_with("catalogue " + folder.path().string() + " --from 10.1.2024").code == 2);
    CHECK(called_with("catalogue " + folder / "none").code == 66);
    CHECK(called_with("catalogue " + folder.path().string() + " --as-indexed").code == 66);
    CHECK(called_with("catalogue " + folder.path().string() + " --index " + folder / "none/index").code == 73);
}

TEST_CASE("a folder without records is told as such, with how a record is made") {
    const TemporaryFolder folder;
    const Ran ran = called_with("catalogue " + folder.path().string());
    CHECK(ran.code == 0);
    CHECK_THAT(ran.err, Catch::Matchers::Contains("no record found") && Catch::Matchers::Contains("wayfolio record"));
}
