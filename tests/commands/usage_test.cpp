#include "commands/program.hpp"

#include <catch2/catch.hpp>

#include <set>

using namespace wayfolio::testing;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

TEST_CASE("help opens with examples and names every command and exit code") {
    const Ran ran = called_with("--help");
    CHECK(ran.code == 0);
    CHECK(ran.err.empty());
    CHECK_THAT(ran.out, StartsWith("Examples:\n"));
    for (const std::string& verb : verbs) CHECK_THAT(ran.out, Contains("\n  " + verb));
    for (const char* code : {"\n   0  ", "\n   1  ", "\n   2  ", "\n  65  ", "\n  66  ", "\n  70  ", "\n  73  ", "\n  74  "})
        CHECK_THAT(ran.out, Contains(code));
}

TEST_CASE("the help of each command opens with an example of it") {
    for (const std::string& verb : verbs) {
        const Ran ran = called_with(verb + " --help");
        CHECK(ran.code == 0);
        CHECK_THAT(ran.out, StartsWith("Example:\n  wayfolio " + verb));
    }
}

TEST_CASE("the version is printed and nothing else") {
    const Ran ran = called_with("--version");
    CHECK(ran.code == 0);
    CHECK_THAT(ran.out, Catch::Matchers::Matches("wayfolio [0-9]+\\.[0-9]+\\.[0-9]+\n"));
}

TEST_CASE("a misspelt command gets the near miss") {
    const Ran ran = called_with("reprot x.json -o x.pdf");
    CHECK(ran.code == 2);
    CHECK(ran.out.empty());
    CHECK_THAT(ran.err, Contains("no such command reprot (did you mean \"report\"?)"));
}

TEST_CASE("a misspelt option gets the near miss, before anything that is missing") {
    const Ran ran = called_with("report " + smallest + " --ouput x.pdf");
    CHECK(ran.code == 2);
    CHECK_THAT(ran.err, Contains("no such option --ouput (did you mean \"--output\"?)"));
    CHECK_THAT(called_with("--verson").err, Contains("did you mean \"--version\"?"));
}

TEST_CASE("after two dashes all words are files, whatever they begin with") {
    const TemporaryFolder folder;
    std::filesystem::copy_file(smallest, folder / "-dash.json");
    const Ran ran = run("cd " + folder.path().string() + " && " + program + " evaluate -- -dash.json > out.json");
    CHECK(ran.err == "");
    CHECK(ran.code == 0);
}

TEST_CASE("an incomplete or contradictory command line is a usage error") {
    const auto [arguments, said] = GENERATE(table<std::string, std::string>({
        {"", "no command given"},
        {"check", "no result document given"},
        {"report " + smallest, "no output given"},
        {"report " + smallest + " another.json -o x.pdf", "one word too many: another.json"},
        {"report " + smallest + " -o x.pdf --paper A3", "--paper: unknown paper A3; use A4 or Letter"},
        {"figure " + smallest + " -o figures --format gif", "--format: unknown format gif; use svg, pdf or png"},
        {"catalogue . --verdict bad", "unknown verdict bad; use pass, fail,"},
        {"compare " + smallest, "give two inputs: OLD NEW"},
        {"figure " + smallest + " --figure error -o x.svg", "--figure needs --series"},
        {"figure " + smallest + " -o -", "all figures go to a folder"},
        {"figure " + smallest + " --series x -o x.gif", "unknown format; end its name with .svg, .pdf or .png"},
        {"figure " + smallest + " --series x --figure eror -o x.svg", "no figure \"eror\" (did you mean \"error\"?)"},
        {"table " + smallest + " --series y -o x.csv", "no series is called \"y\""},
        {"table " + smallest + " -o x.csv", "no series given"},
        {"schema reslt", "did you mean \"result\"?"},
        {"schema", "no schema named"},
    }));
    const Ran ran = called_with(arguments);
    CAPTURE(arguments);
    CHECK(ran.code == 2);
    CHECK(ran.out.empty());
    CHECK_THAT(ran.err, Contains(said));
    CHECK_THAT(ran.err, Contains("wayfolio --help"));
}

TEST_CASE("a file may have the name of a command") {
    const TemporaryFolder folder;
    (void)folder.file("report", wayfolio::support::file_bytes(smallest));
    const Ran ran = run("cd " + folder.path().string() + " && " + std::filesystem::absolute(program).string() + " evaluate report");
    CHECK(ran.code == 0);
    CHECK_THAT(ran.out, Contains("wayfolio-evaluation"));
    const Ran unknown = called_with("check catalogue");
    CHECK(unknown.code == 66);
    CHECK_THAT(unknown.err, Contains("catalogue"));
}

TEST_CASE("the document is never overwritten by its own report") {
    const TemporaryFolder folder;
    const std::string document = folder.file("job.json", wayfolio::support::file_bytes(smallest));
    const Ran ran = called_with("report " + document + " -o " + folder.path().string() + "/./job.json");
    CHECK(ran.code == 2);
    CHECK(wayfolio::support::file_bytes(document) == wayfolio::support::file_bytes(smallest));
}

TEST_CASE("the layouts that come with the program are listed with their titles") {
    const Ran ran = called_with("layouts");
    CHECK(ran.code == 0);
    for (const char* name : {"report ", "summary ", "figures "}) CHECK_THAT("\n" + ran.out, Contains(std::string("\n") + name));
}

TEST_CASE("figures stay in their folder and none replaces another, whatever the series are called") {
    const TemporaryFolder folder;
    const std::string runs =
        R"("error": "EXX", "unit": "um", "position_unit": "mm", "targets": [0, 1])"
        R"(, "runs": [{"approach": "positive", "deviations": [0, 1]}]})";
    const std::string document = folder.file("job.json", R"({"format": "wayfolio-result", "version": 1, "series": [{"id": "../x/y", )" +
                                                             runs + R"(, {"id": "../x-y", )" + runs + "]}");
    const Ran ran = called_with("figure " + document + " -o " + folder / "figures");
    CHECK(ran.code == 0);
    std::set<std::string> files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder.path()))
        files.insert(entry.path().lexically_relative(folder.path()).string());
    CHECK(files == std::set<std::string>{"job.json", "figures", "figures/-.-x-y-error.svg", "figures/-.-x-y-error-2.svg"});
}
