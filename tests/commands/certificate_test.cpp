#include "commands/program.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio::testing;
using wayfolio::support::file_bytes;
using Catch::Matchers::Contains;

TEST_CASE("the draft of a document, of the PDF and of the record made from it are the same") {
    const TemporaryFolder folder;
    const std::string pdf = folder / "smallest.pdf", record = folder / "record", out = folder / "draft.xml";
    REQUIRE(called_with("report " + smallest + " -o " + pdf).code == 0);
    REQUIRE(called_with("record " + smallest + " -o " + record).code == 0);
    const Ran printed = called_with("certificate " + smallest + " -o -");
    REQUIRE(printed.code == 0);
    for (const std::string& from : {smallest, pdf, record, "- < " + smallest}) {
        CHECK(called_with("certificate -o " + out + " " + from).code == 0);
        CHECK(file_bytes(out) == printed.out);
    }
}

TEST_CASE("what is missing for a certificate is told on standard error, with its place; the exit code stays 0") {
    const Ran ran = called_with("certificate " + short_axis + " -o -");
    CHECK(ran.code == 0);
    CHECK_THAT(ran.err, Contains("short-axis.json: /job/laboratory/country: missing for a certificate: country of the laboratory"));
    CHECK_THAT(ran.err, Contains("/job/place_kind") && !Contains("/job/customer"));
}

TEST_CASE("certificate refuses what it cannot read or write, and then writes nothing") {
    const TemporaryFolder folder;
    const std::string out = folder / "draft.xml";
    CHECK(called_with("certificate").code == 2);
    CHECK(called_with("certificate " + smallest).code == 2);
    CHECK(called_with("certificate " + folder / "none.json" + " -o " + out).code == 66);
    CHECK(called_with("certificate " + folder.file("faulty.json", three_faults) + " -o " + out).code == 65);
    CHECK(called_with("certificate " + smallest + " -o " + folder / "none/draft.xml").code == 73);
    CHECK(!std::filesystem::exists(out));
    const std::string own = folder.file("job.json", file_bytes(smallest));
    CHECK(called_with("certificate " + own + " -o " + own).code == 2);
    CHECK(file_bytes(own) == file_bytes(smallest));
}

TEST_CASE("a report that carries the draft keeps the rules of archival and accessible PDF, is verified and drawn again") {
    const TemporaryFolder folder;
    const std::string layout = folder.file(
        "own.json",
        R"({"format": "wayfolio-layout", "version": 1, "name": "own", "title": "Own", "extends": "summary", "certificate_draft": true})");
    const std::string pdf = folder / "job.pdf", again = folder / "again.pdf";
    REQUIRE(called_with("report " + short_axis + " -o " + pdf + " --layout " + layout).code == 0);
    CHECK_THAT(run("pdfdetach -list " + pdf).out, Contains("wayfolio-certificate-draft.xml"));
    for (const char* look : {"conformance ", "verify "}) CHECK(called_with(look + pdf).code == 0);
    REQUIRE(called_with("redraw " + pdf + " -o " + again).code == 0);
    CHECK(file_bytes(again) == file_bytes(pdf));
}
