#include "commands/program.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio::testing;
using Catch::Matchers::Contains;

TEST_CASE("a document, the PDF and the record made from it do not differ") {
    const TemporaryFolder folder;
    const std::string pdf = folder / "smallest.pdf", record = folder / "record";
    REQUIRE(called_with("report " + smallest + " -o " + pdf).code == 0);
    REQUIRE(called_with("record " + smallest + " -o " + record).code == 0);
    for (const std::string& other : {pdf, record}) {
        const Ran ran = called_with("compare " + smallest + " " + other);
        CHECK(ran.code == 0);
        CHECK_THAT(ran.out, Contains("Nothing differs"));
    }
}

TEST_CASE("a limit that moved is told by its place, with the verdict, and the exit code stays 0") {
    const TemporaryFolder folder;
    const Ran ran = called_with("compare " + folder.file("old.json", document_with_limit("100")) + " " +
                                folder.file("new.json", document_with_limit("1")));
    CHECK(ran.code == 0);
    CHECK_THAT(ran.out, Contains("/series/0/tolerances/0/limit (x): 100 -> 1") && Contains("x E: Inside -> Outside"));
}

TEST_CASE("a comparison as PDF keeps the rules of archives and screen readers, and is compared again rather than verified") {
    const TemporaryFolder folder;
    const std::string pdf = folder / "changes.pdf", old = folder.file("old.json", document_with_limit("100")),
                      now = folder.file("new.json", document_with_limit("1"));
    const Ran ran = called_with("compare " + old + " " + now + " -o " + pdf);
    REQUIRE(ran.code == 0);
    CHECK(ran.out.empty());
    CHECK(called_with("conformance " + pdf).code == 0);
    for (const std::string& verb : std::vector<std::string>{"verify ", "redraw -o " + folder / "again.pdf" + " ", "compare " + old + " "}) {
        const Ran refused = called_with(verb + pdf);
        CHECK(refused.code == 65);
        CHECK_THAT(refused.err, Contains("a comparison of two results") && Contains("wayfolio-old-result.json"));
    }
    CHECK(called_with("compare " + old + " " + now + " --json -o " + folder / "other.pdf").code == 2);
    CHECK(called_with("compare " + old + " " + now + " -o " + now).code == 2);
}

TEST_CASE("compare refuses what it cannot read, and says what it needs") {
    const TemporaryFolder folder;
    CHECK(called_with("compare " + smallest).code == 2);
    CHECK(called_with("compare - - < " + smallest).code == 2);
    CHECK(called_with("compare " + smallest + " " + folder / "none.json").code == 66);
    const Ran faulty = called_with("compare " + smallest + " " + folder.file("faulty.json", three_faults));
    CHECK(faulty.code == 65);
    CHECK(faulty.out.empty());
    CHECK_THAT(faulty.err, Contains("/series/2/targts"));
}
