#include "commands/program.hpp"
#include "document/read_document.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio::testing;
using Catch::Matchers::Contains;
using Catch::Matchers::EndsWith;
using Catch::Matchers::StartsWith;
using wayfolio::support::file_bytes;

namespace {

const std::string gather_mapping = R"({"format": "wayfolio-mapping", "version": 1,
 "series": [{"id": "x", "error": "EXX", "unit": "um", "position_unit": "mm", "sign": "actual-minus-target"}],
 "exports": [{"file": "x*.csv", "position": {"column": "T"}, "approach": {"column": "D", "positive": ["+"], "negative": ["-"]},
   "run": {"column": "R"}, "excluded": {"column": "M", "reasons": {"x": "beam interrupted"}},
   "values": [{"series": "x", "column": "V"}]}]})";
const std::string gather_readings = "T,D,R,V,M\n0,+,1,0.1,\n5,+,1,1.4,\n5,-,1,1.2,x\n0,-,1,,\n";

/// A folder with a mapping and one export, and a line that gathers from it.
struct Site {
    TemporaryFolder folder;
    std::string mapping = folder.file("m.json", gather_mapping), readings = folder.file("x-1.csv", gather_readings);

    [[nodiscard]] Ran gather(const std::string& arguments) const { return called_with("gather " + mapping + " " + arguments); }
    [[nodiscard]] std::string out(const std::string& name) const { return file_bytes(folder / name); }
};

}  // namespace

TEST_CASE("readings are gathered from a folder, and the account says what became of them") {
    const Site site;
    (void)site.folder.file("notes.txt", "not a reading");
    const Ran ran = site.gather(site.folder.path().string() + " -o " + site.folder / "d.json");
    CHECK(ran.err == "");
    CHECK(ran.code == 0);
    CHECK_THAT(ran.out, StartsWith("1 export:\n  x-1.csv: 4 rows read, 1 passed over, SHA-256 "));
    CHECK_THAT(ran.out, Contains("  notes.txt: not read, no part of the mapping names it\n"));
    CHECK_THAT(ran.out, Contains("  x (EXX): 2 targets, 1 positive and 1 negative runs; 2 readings used, 1 missing, 1 set aside\n"));
    CHECK_THAT(ran.out, Contains("    derived: targets are the positions that the export names, listed rising\n"));
    CHECK_THAT(called_with("check " + site.folder / "d.json").out, EndsWith(ran.out.substr(ran.out.rfind('\n', ran.out.size() - 2) + 1)));
    CHECK_THAT(site.out("d.json"), Contains(R"("excluded": [{"target": 1, "reason": "beam interrupted"}])"));
    CHECK_THAT(site.out("d.json"), Contains(R"("origin": {)") && Contains(R"({"file": "x-1.csv", "sha256": ")"));
}

TEST_CASE("what is written to standard output is the document alone, and exports may come from standard input") {
    const Site site;
    const Ran ran = site.gather(site.readings + " -o -");
    CHECK_THAT(ran.out, StartsWith("{\n  \"format\": \"wayfolio-result\",\n"));
    CHECK_THAT(ran.err, StartsWith("1 export:\n"));
    std::string any = gather_mapping;
    any.replace(any.find("x*.csv"), 6, "*");
    const Ran piped = called_with("gather " + site.folder.file("any.json", any) + " - -o - <" + site.readings);
    CHECK(piped.code == 0);
    CHECK_THAT(piped.out, Contains(R"("deviations": [0.1, 1.4])"));
}

TEST_CASE("a second state goes into the document of the first, and readings are never overwritten unless told which") {
    const Site site;
    REQUIRE(site.gather(site.readings + " --state as-found -o " + site.folder / "found.json").code == 0);
    const std::string left = site.folder.file("x-2.csv", "T,D,R,V,M\n0,+,1,0.2,\n5,+,1,0.3,\n");
    const std::string into = " --into " + site.folder / "found.json";
    const Ran both = site.gather(left + into + " --state as-left -o " + site.folder / "both.json");
    CHECK(both.err == "");
    CHECK(both.code == 0);
    CHECK_THAT(both.out, Contains("derived: the state \"as-left\" is the one named for all of them"));
    CHECK_THAT(site.out("both.json"), Contains(R"("id": "x-as-found")") && Contains(R"("id": "x-as-left")"));
    const Ran again = site.gather(left + into + " --state as-found -o " + site.folder / "again.json");
    CHECK(again.code == 65);
    CHECK_THAT(again.err, Contains("/series/0: found series \"x-as-found\", which has readings already; expected a series without readings "
                                   "(give --replace x-as-found to overwrite them, or another --state)"));
    CHECK_FALSE(std::filesystem::exists(site.folder / "again.json"));
    CHECK(site.gather(left + into + " --state as-found --replace x-as-found -o " + site.folder / "again.json").code == 0);
    CHECK_THAT(site.out("again.json"), Contains("0.2, 0.3") && !Contains("1.4"));
}

TEST_CASE("readings go into a series that waits for them with its limits, and what contradicts it is refused") {
    const Site site;
    const std::string plan = R"({"format": "wayfolio-result", "version": 1, "job": {"number": "K-1"}, "series": [{"id": "x", "error": "EXX",
  "unit": "um", "position_unit": "mm", "targets": [5, 0.0], "tolerances": [{"parameter": "A", "limit": 7.10, "unit": "um"}]}]})";
    const Ran ran = site.gather(site.readings + " --into " + site.folder.file("plan.json", plan) + " -o " + site.folder / "d.json");
    CHECK(ran.err == "");
    CHECK_THAT(site.out("d.json"), Contains("\"targets\": [5, 0.0]") && Contains("\"limit\": 7.10") && Contains("[1.4, 0.1]"));
    std::string other = plan;
    other.replace(other.find("\"um\""), 4, "\"mm\"");
    const Ran refused = site.gather(site.readings + " --into " + site.folder.file("other.json", other) + " -o " + site.folder / "e.json");
    CHECK(refused.code == 65);
    CHECK_THAT(refused.err, Contains("/series/0/unit: found another \"unit\" than the mapping has"));
}

TEST_CASE("faults of exports leave nothing behind, and a named file that the mapping does not know is one") {
    const Site site;
    const std::string bad = site.folder.file("x-3.csv", "T,D,R,V,M\n0,+,1,\"0,1\",\n");
    const Ran ran = site.gather(bad + " --keep -o " + site.folder / "d.json");
    CHECK(ran.code == 65);
    CHECK_THAT(ran.err, Contains("x-3.csv:2:7: found \"0,1\"; expected a number with a decimal point in column \"V\" (a decimal comma?"));
    const Ran unknown = site.gather(site.readings + " " + site.folder.file("y.csv", "1") + " -o " + site.folder / "d.json");
    CHECK(unknown.code == 65);
    CHECK_THAT(unknown.err, Contains("found no part for the export y.csv"));
    CHECK_FALSE(std::filesystem::exists(site.folder / "d.json"));
    CHECK(site.gather("-o " + site.folder / "d.json").code == 2);
    CHECK(site.gather(site.readings + " -o " + site.readings).code == 2);
    CHECK(site.gather(site.folder / "x-none.csv" + " -o " + site.folder / "d.json").code == 66);
}

TEST_CASE("the sample exports, in six shapes and two states, give the readings of the sample that they were made from") {
    const TemporaryFolder folder;
    const std::string exports = source_folder + "/sample-results/exports/", machine = " --facts " + exports + "facts/machine-D-0012.json";
    const std::string mapping = "gather " + exports + "mapping.json " + exports;
    REQUIRE(
        called_with(mapping + "found --into " + exports + "job.json --state as-found" + machine + " -o " + folder / "found.json").code ==
        0);
    const Ran ran =
        called_with(mapping + "left --into " + folder / "found.json" + " --state as-left --keep" + machine + " -o " + folder / "d.json");
    CHECK(ran.err == "");
    CHECK(ran.code == 0);
    CHECK_THAT(ran.out,
               Contains("  x-exx-as-left (EXX, as-left): 27 targets, 5 positive and 5 negative runs; 269 readings used, 0 missing, "
                        "1 set aside\n"));
    CHECK_THAT(ran.out, Contains("derived: deviations follow from actual positions, actual minus target, in um"));
    CHECK_THAT(ran.out, Contains("derived: runs and approaches follow from the way the position goes"));
    using namespace wayfolio;
    const auto gathered = document::read_document(std::filesystem::path(folder / "d.json"));
    const auto sample = document::read_document(std::filesystem::path(source_folder + "/sample-results/long-axis.json"));
    REQUIRE(gathered.series.size() == 12);
    REQUIRE(sample.series.size() == 12);
    for (std::size_t place = 0; place < 12; ++place) {
        const document::Series &one = gathered.series[place], &same = sample.series[place];
        INFO(one.id);
        CHECK(one.error == same.error);
        CHECK(one.state == same.state);
        REQUIRE(one.runs.size() == same.runs.size());
        for (std::size_t run = 0; run < one.runs.size(); ++run) {
            CHECK(one.runs[run].approach == same.runs[run].approach);
            CHECK(one.runs[run].deviations == same.runs[run].deviations);
            CHECK(one.runs[run].excluded.size() == same.runs[run].excluded.size());
        }
    }
    REQUIRE(gathered.environment);
    CHECK(gathered.environment->samples.size() == sample.environment->samples.size());
    CHECK(gathered.environment->samples[3].machine_C == sample.environment->samples[3].machine_C);
    CHECK(gathered.side_files.size() == 11);
    REQUIRE(gathered.instruments.size() == sample.instruments.size());
    CHECK(gathered.instruments[0].certificate == sample.instruments[0].certificate);
    CHECK(gathered.uncertainty.contributors.size() == sample.uncertainty.contributors.size());
    CHECK(gathered.series[0].tolerances.size() == 4);
    CHECK(gathered.series[11].tolerances.at(0).source == sample.series[11].tolerances.at(0).source);
}

TEST_CASE("from the raw file to the printed digit: the report names its exports, and verifying gathers from them again") {
    const Site site;
    std::filesystem::create_directory(site.folder / "job");
    const std::string document = site.folder / "job/d.json", pdf = site.folder / "r.pdf";
    REQUIRE(site.gather(site.readings + " --keep -o " + document).code == 0);
    REQUIRE(called_with("report " + document + " -o " + pdf).code == 0);
    const std::string digest = run("sha256sum " + site.readings).out.substr(0, 64);
    const std::string page = run("pdftotext -layout " + pdf + " - | tr -d ' \n'").out;
    CHECK_THAT(page, Contains("Originofthereadings") && Contains("x-1.csv") && Contains(digest.substr(0, 30)));
    const Ran sound = called_with("verify " + pdf);
    CHECK(sound.code == 0);
    CHECK_THAT(sound.out, Contains("readings, gathered again from the kept exports"));
    // The document is changed and its report made anew: all digests agree, only the exports do not.
    std::string changed = file_bytes(document);
    changed.replace(changed.find("1.4"), 3, "1.3");
    (void)site.folder.file("job/d.json", changed);
    REQUIRE(called_with("report " + document + " -o " + pdf).code == 0);
    const Ran other = called_with("verify " + pdf);
    CHECK(other.code == 1);
    CHECK_THAT(other.out, Contains("series x: run 1 positive at 5: 1.3 um, the exports give 1.4 um"));
    REQUIRE(called_with("record " + document + " -o " + site.folder / "record").code == 0);
    CHECK_THAT(called_with("verify " + site.folder / "record").out, Contains("1.3 um, the exports give 1.4 um"));
}

TEST_CASE("kept exports lie beside the document, replace nothing there, and a change of one is a fault") {
    const Site site;
    std::filesystem::create_directory(site.folder / "job");
    const std::string document = site.folder / "job/d.json";
    REQUIRE(site.gather(site.readings + " --keep -o " + document).code == 0);
    CHECK(site.out("job/x-1.csv") == gather_readings);
    CHECK(site.out("job/m.json") == gather_mapping);
    CHECK(called_with("check " + document).code == 0);
    std::string changed = gather_readings;
    changed.replace(changed.find("1.4"), 3, "1.5");
    (void)site.folder.file("job/x-1.csv", changed);
    const Ran ran = called_with("report " + document + " -o " + site.folder / "r.pdf");
    CHECK(ran.code == 65);
    CHECK_THAT(ran.err, Contains("/series/0/origin/files/0/sha256: found the digest \""));
    CHECK_THAT(ran.err, Contains("expected that of x-1.csv beside the document") &&
                            Contains("the file or the document was changed since the readings were gathered"));
    const Ran again = site.gather(site.readings + " --keep -o " + document);
    CHECK(again.code == 2);
    CHECK_THAT(again.err, Contains("job/x-1.csv is there and holds something else: it is not replaced"));
    CHECK(site.gather(site.readings + " --keep -o -").code == 2);
}

TEST_CASE("facts go into the document and the report names their files; a kept one that says otherwise does not hold") {
    const Site site;
    const std::string kit = site.folder.file("kit.json", R"({"format": "wayfolio-facts", "version": 1,
 "instruments": [{"id": "laser", "serial": "L-1"}],
 "limits": [{"error": "EXX", "tolerances": [{"parameter": "E", "limit": 7, "unit": "um"}]}]})");
    std::filesystem::create_directory(site.folder / "job");
    const std::string document = site.folder / "job/d.json", pdf = site.folder / "r.pdf";
    const Ran ran = site.gather("--facts " + kit + " " + site.readings + " --keep -o " + document);
    CHECK(ran.err == "");
    CHECK_THAT(ran.out, Contains("1 file of facts:\n  kit.json: 5 facts taken, 0 there already, SHA-256 "));
    REQUIRE(called_with("report " + document + " -o " + pdf).code == 0);
    const std::string page = run("pdftotext -layout " + pdf + " - | tr -d ' \n'").out;
    CHECK_THAT(page, Contains("kit.json") && Contains(run("sha256sum " + kit).out.substr(0, 30)));
    const Ran sound = called_with("verify " + pdf);
    CHECK(sound.code == 0);
    CHECK_THAT(sound.out, Contains("facts, merged again from the kept files"));
    std::string changed = file_bytes(document);
    changed.replace(changed.find("L-1"), 3, "L-2");
    changed.replace(changed.find("\"limit\": 7"), 10, "\"limit\": 9");
    (void)site.folder.file("job/d.json", changed);
    REQUIRE(called_with("report " + document + " -o " + pdf).code == 0);
    const Ran other = called_with("verify " + pdf);
    CHECK(other.code == 1);
    CHECK_THAT(other.out,
               Contains("kit.json:2:44: /instruments/0/serial: found \"L-1\"") && Contains("/limits/0/tolerances/0/limit: found 7"));
}

TEST_CASE("a mapping names its facts as seen from its own folder") {
    const Site site;
    std::filesystem::create_directory(site.folder / "facts");
    (void)site.folder.file("facts/kit.json", R"({"format": "wayfolio-facts", "version": 1, "instruments": [{"id": "laser"}]})");
    std::string mapping = gather_mapping;
    mapping.insert(1, "\"facts\": [\"facts/kit.json\"], ");
    const Ran ran =
        called_with("gather " + site.folder.file("named.json", mapping) + " " + site.readings + " -o " + site.folder / "d.json");
    CHECK(ran.err == "");
    CHECK_THAT(site.out("d.json"), Contains(R"("instruments": [{"id": "laser"}])"));
    std::filesystem::remove(site.folder / "facts/kit.json");
    const Ran gone = called_with("gather " + site.folder / "named.json " + site.readings + " -o " + site.folder / "e.json");
    CHECK(gone.code == 65);
    CHECK_THAT(gone.err, Contains("named.json:1:12: /facts/0: found \"facts/kit.json\"; expected the name of a file of facts"));
}

TEST_CASE("environment and records on the fly are gathered again from kept exports, too") {
    const TemporaryFolder folder;
    const std::string mapping = folder.file("m.json", R"({"format": "wayfolio-mapping", "version": 1,
 "series": [{"id": "x", "error": "EXX", "unit": "um", "position_unit": "mm", "sign": "actual-minus-target"}],
 "exports": [{"file": "x.csv", "position": {"column": "T"}, "approach": "positive", "run": "file",
    "values": [{"series": "x", "column": "V"}]},
  {"file": "t.csv", "trace": {"series": "x", "position": "P", "value": "V", "side_file": "fly.csv"}},
  {"file": "log.csv", "time": {"column": "C"}, "environment": {"air_C": {"column": "A"}, "machine_C": {"bed": {"column": "B"}}}}]})");
    const std::string exports = folder.file("x.csv", "T,V\n0,0.1\n5,1.4\n") + " " + folder.file("t.csv", "P,V\n0,0.1\n1,0.25\n") + " " +
                                folder.file("log.csv", "C,A,B\n2026-05-11T08:10,20.4,20.1\n2026-05-11T08:20,20.5,20.2\n");
    std::filesystem::create_directory(folder / "job");
    const std::string document = folder / "job/d.json", pdf = folder / "r.pdf";
    const auto verified = [&] {
        REQUIRE(called_with("report " + document + " -o " + pdf).code == 0);
        return called_with("verify " + pdf);
    };
    const Ran ran = called_with("gather " + mapping + " " + exports + " --keep -o " + document);
    CHECK(ran.err == "");
    const Ran sound = verified();
    CHECK(sound.code == 0);
    CHECK_THAT(sound.out, Contains("holds      readings, gathered again") && Contains("holds      environment, gathered again"));
    const std::string was = file_bytes(document);
    std::string warmer = was;
    warmer.replace(warmer.find("20.5"), 4, "20.6");
    (void)folder.file("job/d.json", warmer);
    const Ran environment = verified();
    CHECK(environment.code == 1);
    CHECK_THAT(environment.out, Contains("the sample at 2026-05-11T08:20 is not the one that the exports give"));
    (void)folder.file("job/d.json", was);
    (void)folder.file("job/fly.csv", "position,value\n0,0.1\n1,0.26\n");
    CHECK_THAT(verified().out, Contains("series x: sample 2 on the fly is not the one that the exports give"));
}

TEST_CASE("a record on the fly too large to travel inside a report is written beside the document, and read from there", "[slow]") {
    const TemporaryFolder folder;
    const std::string mapping = folder.file("m.json", R"({"format": "wayfolio-mapping", "version": 1,
        "series": [{"id": "y", "error": "EYX", "unit": "um", "position_unit": "mm", "sign": "actual-minus-target"}],
        "exports": [{"file": "x*", "trace": {"series": "y", "position": "P", "value": "V", "side_file": "t.csv"}}]})");
    std::string samples;
    for (int i = 0; samples.size() < 9'000'000; ++i) samples += std::to_string(i) + "." + std::to_string(100'000 + i % 7) + ",1.125\n";
    const std::string readings = folder.file("x.csv", "P,V\n" + samples);
    std::filesystem::create_directory(folder / "out");
    CHECK(called_with("gather " + mapping + " " + readings + " --keep -o " + folder / "out/d.json").code == 0);
    CHECK(file_bytes(folder / "out/t.csv") == "position,value\n" + samples);
    CHECK(file_bytes(folder / "out/x.csv") == "P,V\n" + samples);
    CHECK(called_with("check " + folder / "out/d.json").code == 0);
}
