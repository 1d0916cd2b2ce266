#include "commands/program.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>

using namespace wayfolio::testing;
using wayfolio::support::file_bytes;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

std::size_t entries(const std::filesystem::path& folder) {
    return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(folder), {}));
}

}  // namespace

TEST_CASE("a dash is standard input and standard output") {
    const TemporaryFolder folder;
    REQUIRE(called_with("report " + smallest + " -o " + folder / "file.pdf").code == 0);
    const Ran piped = run("cat " + smallest + " | " + program + " report - -o - | cat");
    CHECK_THAT(piped.out, StartsWith("%PDF-"));
    CHECK_THAT(file_bytes(folder / "file.pdf"), StartsWith("%PDF-"));
    CHECK(run("cat " + smallest + " | " + program + " check -").code == 0);
    CHECK(run(program + " evaluate - < " + smallest).code == 0);
}

TEST_CASE("every table, schema and evaluation that goes to standard output is whole or an error") {
    for (const std::string& arguments : {"evaluate " + smallest, "table " + smallest + " --series x -o -", std::string("schema result"),
                                         "check " + smallest, std::string("--help")}) {
        CAPTURE(arguments);
        const Ran ran = called_with(arguments + " > /dev/full");
        CHECK(ran.code == 74);
        CHECK_FALSE(ran.err.empty());
    }
    const TemporaryFolder folder;
    CHECK(called_with("check " + folder.file("job.json", three_faults) + " > /dev/full").code == 74);
    // Where nobody can be told, the exit code still says what happened.
    CHECK(called_with("report " + folder / "none.json" + " -o " + folder / "x.pdf" + " 2> /dev/full").code == 66);
    CHECK(called_with("report " + smallest + " --lyout report 2> /dev/full").code == 2);
}

TEST_CASE("an output that cannot be created is told apart from a failing disk") {
    CHECK(called_with("table " + smallest + " --series x -o /nowhere/x.csv").code == 73);
    CHECK(called_with("figure " + smallest + " -o /dev/null/figures").code == 73);
}

TEST_CASE("a failed run leaves the old file and nothing beside it") {
    const TemporaryFolder folder;
    const std::string old = folder.file("job.pdf", "the old one");
    const std::string document = folder.file("job.json", three_faults);
    CHECK(called_with("report " + document + " -o " + old).code == 65);
    CHECK(file_bytes(old) == "the old one");
    CHECK(entries(folder.path()) == 2);
}

TEST_CASE("an old output is replaced whole and nothing is left beside it") {
    const TemporaryFolder folder;
    const std::string old = folder.file("x.csv", std::string(100000, 'x'));
    CHECK(called_with("table " + smallest + " --series x -o " + old).code == 0);
    CHECK_THAT(file_bytes(old), StartsWith("series,error,"));
    CHECK(entries(folder.path()) == 1);
}

TEST_CASE("all figures go to a folder, one file each") {
    const TemporaryFolder folder;
    const Ran ran = called_with("figure " + short_axis + " -o " + folder / "figures");
    CHECK(ran.code == 0);
    CHECK(ran.out.empty());
    CHECK(std::filesystem::exists(folder / "figures/x-exx-found-error.svg"));
    CHECK(entries(folder / "figures") >= 6);
    for (const auto& entry : std::filesystem::directory_iterator(folder / "figures")) CHECK(entry.path().extension() == ".svg");
}

TEST_CASE("one figure comes in the format its name asks for") {
    const TemporaryFolder folder;
    const auto [ending, start] = GENERATE(table<std::string, std::string>({{"svg", "<?xml"}, {"pdf", "%PDF-"}, {"png", "\x89PNG"}}));
    CHECK(called_with("figure " + smallest + " --series x -o " + folder / "x." + ending).code == 0);
    CHECK_THAT(file_bytes(folder / "x." + ending), StartsWith(start));
    CHECK_THAT(called_with("figure " + smallest + " --series x --format " + ending + " -o -").out, StartsWith(start));
}

TEST_CASE("the same document gives the same bytes under another time zone, language and home") {
    const TemporaryFolder folder;
    const std::string elsewhere =
        "env -i TZ=Pacific/Kiritimati LANG=de_DE.UTF-8 LC_ALL=tr_TR.UTF-8 HOME=/nowhere XDG_CACHE_HOME=/nowhere SOURCE_DATE_EPOCH=1 ";
    REQUIRE(called_with("report " + short_axis + " -o " + folder / "here.pdf").code == 0);
    REQUIRE(run("cd / && " + elsewhere + program + " report " + short_axis + " -o " + folder / "there.pdf").code == 0);
    CHECK(file_bytes(folder / "here.pdf") == file_bytes(folder / "there.pdf"));
    for (const std::string ending : {"svg", "png"}) {
        const std::string arguments = " figure " + short_axis + " --series x-exx-found --format " + ending + " -o -";
        CHECK(run(program + arguments).out == run(elsewhere + program + arguments).out);
    }
}

TEST_CASE("schemas are JSON and name their format") {
    for (const std::string name : {"result", "layout", "evaluation", "findings", "comparison", "catalogue", "history", "verification",
                                   "conformance"}) {
        const Ran ran = called_with("schema " + name);
        CHECK(ran.code == 0);
        CHECK(nlohmann::json::parse(ran.out).at("$schema").get<std::string>() == "http://json-schema.org/draft-07/schema#");
        CHECK_THAT(ran.out, Contains("wayfolio-" + name));
    }
}

TEST_CASE("every shipped layout renders every sample on both papers", "[slow][again]") {
    const TemporaryFolder folder;
    for (const std::string sample : {"short-axis", "long-axis", "rotary-axis", "nist-sirstv", "smallest"})
        for (const std::string layout : {"report", "summary", "figures"})
            for (const std::string paper : {"A4", "Letter"}) {
                CAPTURE(sample, layout, paper);
                const std::string document = source_folder + "/sample-results/" + sample + ".json", pdf = folder / "out.pdf";
                const Ran ran = called_with("report " + document + " --layout " + layout + " --paper " + paper + " -o " + pdf);
                CAPTURE(ran.err);
                CHECK(ran.code == 0);
                CHECK(run("qpdf --check " + pdf).code == 0);
            }
}

TEST_CASE("an output in a folder that does not exist is refused with what to do") {
    const TemporaryFolder folder;
    const Ran ran = called_with("report " + smallest + " -o " + folder / "none/report.pdf");
    CHECK(ran.code == 73);
    CHECK_THAT(ran.err, Catch::Matchers::Contains("its folder does not exist; make it first"));
}
