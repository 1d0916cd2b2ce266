#include "commands/program.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace wayfolio::testing;
using Catch::Matchers::Contains;
using nlohmann::json;

TEST_CASE("all faults of a document come at once, each with its place") {
    const TemporaryFolder folder;
    const std::string document = folder.file("job.json", three_faults);
    const Ran ran = called_with("report " + document + " -o " + folder / "job.pdf");
    CHECK(ran.code == 65);
    CHECK(ran.out.empty());
    CHECK_THAT(ran.err, Contains(document + ":4:") && Contains("/series/0/unit"));
    CHECK_THAT(ran.err, Contains(document + ":5:") && Contains("/series/1/error"));
    CHECK_THAT(ran.err, Contains(document + ":6:") && Contains("/series/2/targts") && Contains("did you mean \"targets\"?"));
    CHECK_THAT(ran.err, Contains("3 faults in the input; nothing was written"));
    CHECK_FALSE(std::filesystem::exists(folder / "job.pdf"));
}

TEST_CASE("check lists faults and counts them") {
    const TemporaryFolder folder;
    const Ran ran = called_with("check " + folder.file("job.json", three_faults));
    CHECK(ran.code == 65);
    CHECK_THAT(ran.out,
               Contains("/series/0/unit") && Contains("/series/1/error") && Contains("/series/2/targts") && Contains(": 3 faults\n"));
    CHECK(ran.err.empty());
}

TEST_CASE("check --json gives faults with place, pointer and expectation") {
    const TemporaryFolder folder;
    const Ran ran = called_with("check --json " + folder.file("job.json", three_faults));
    CHECK(ran.code == 65);
    const json found = json::parse(ran.out);
    REQUIRE(found.at("faults").size() == 3);
    CHECK(found["faults"][0].at("pointer") == "/series/0/unit");
    CHECK(found["faults"][0].at("line") == 4);
    CHECK(found["faults"][0].at("column").get<int>() > 0);
    CHECK_FALSE(found["faults"][0].at("expected").get<std::string>().empty());
    CHECK(found.at("supports").empty());
}

TEST_CASE("check says what the data support, why the rest is not evaluated, and what is lacking") {
    const Ran ran = called_with("check " + smallest);
    CHECK(ran.code == 0);
    CHECK_THAT(ran.out, Contains("x: EXX positioning") && Contains("evaluated: ") && Contains("not evaluated: "));
    CHECK_THAT(ran.out, Contains("ISO/IEC 17025"));
    CHECK_THAT(ran.out, Contains("smallest.json: 0 faults, "));
}

TEST_CASE("check --json of a sound document has no faults and one entry for each series") {
    const Ran ran = called_with("check --json " + short_axis);
    CHECK(ran.code == 0);
    const json found = json::parse(ran.out);
    CHECK(found.at("faults").empty());
    CHECK(found.at("supports").size() == 6);
    CHECK(found["supports"][0].at("series") == "x-exx-found");
    CHECK(found["supports"][0].at("evaluated").size() >= 10);
}

TEST_CASE("a missing file is told apart from a faulty one") {
    const Ran ran = called_with("check /nowhere/job.json");
    CHECK(ran.code == 66);
    CHECK_THAT(ran.err, Contains("/nowhere/job.json"));
    CHECK(called_with("report " + smallest + " --layout /nowhere/mine.json -o /dev/null").code == 66);
}

TEST_CASE("messages have colour on a terminal only, and never with NO_COLOR") {
    const std::string escape = "\x1b[";
    CHECK_THAT(called_with("check /nowhere/job.json").err, Contains("/nowhere/job.json") && !Contains(escape));
    CHECK_THAT(on_terminal("TERM=xterm", "check /nowhere/job.json").out, Contains(escape));
    CHECK_THAT(on_terminal("NO_COLOR=1", "check /nowhere/job.json").out, Contains("/nowhere/job.json") && !Contains(escape));
}

TEST_CASE("pages are not written to a terminal") {
    const Ran ran = on_terminal("", "report " + smallest + " -o -");
    CHECK(ran.code == 2);
    CHECK_THAT(ran.out, Contains("a terminal cannot show this"));
}

TEST_CASE("a result outside its limit changes the exit code only when that was asked for") {
    const TemporaryFolder folder;
    const std::string broken = folder.file("broken.json", document_with_limit("1"));
    const std::string kept = folder.file("kept.json", document_with_limit("100"));
    CHECK(called_with("evaluate " + broken).code == 0);
    CHECK(called_with("evaluate --fail-on-outside " + broken).code == 1);
    CHECK(called_with("evaluate --fail-on-outside " + kept).code == 0);
    CHECK(called_with("report --fail-on-outside " + broken + " -o " + folder / "broken.pdf").code == 1);
    CHECK(std::filesystem::exists(folder / "broken.pdf"));
}
