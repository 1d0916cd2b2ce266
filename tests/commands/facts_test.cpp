#include "commands/program.hpp"
#include "support/light_records.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio::testing;
using Catch::Matchers::Contains;

namespace {

/// A folder with facts of two kinds, and JSON that is none.
struct Shelf {
    TemporaryFolder folder;

    Shelf() {
        std::filesystem::create_directory(folder / "kits");
        (void)folder.file("kits/kit.json", R"({"format": "wayfolio-facts", "version": 1, "instruments": [
  {"id": "laser", "kind": "laser interferometer", "serial": "L-1", "calibrated": "2026-01-13", "due": "2027-01-13"},
  {"id": "level", "serial": "N-1", "due": "2026-12-19"}, {"id": "air", "due": "2026-12-20"}, {"id": "new", "calibrated": "2027-01-02",
   "due": "2028-01-01"}, {"id": "far", "due": "2027-06-01"}, {"id": "rule"}], "uncertainty": {"contributors": [
  {"name": "set-up", "applies_to": ["EXX"], "standard": 0.3, "unit": "um"}]}})");
        (void)folder.file("lab.json", R"({"format": "wayfolio-facts", "version": 1, "job": {"laboratory": {"name": "Lab"}},
  "machine": {"kind": "mill", "serial": "D-1"}, "limits": [{"error": "EXX", "machine_kind": "mill", "tolerances": []}]})");
        (void)folder.file("mapping.json", R"({"format": "wayfolio-mapping"})");
    }
    [[nodiscard]] Ran listed(const std::string& options = "") const { return called_with("facts " + folder.path().string() + options); }
};

}  // namespace

TEST_CASE("facts of a folder are listed with what is out of date on a day, and what expires within 30 days of it") {
    const Ran ran = Shelf().listed(" --on 2026-12-20");
    CHECK(ran.code == 0);
    CHECK(ran.out ==
          "kits/kit.json: 6 instruments; 1 contributor\n"
          "lab.json: laboratory Lab; machine mill, serial D-1; limits of EXX on mill\n"
          "Instruments, by the day on which their certificates expire:\n"
          "  2026-12-19  OUT OF DATE          level: serial N-1  [kits/kit.json]\n"
          "  2026-12-20  EXPIRES ON THIS DAY  air  [kits/kit.json]\n"
          "  2027-01-13  EXPIRES IN 24 DAYS   laser: laser interferometer, serial L-1  [kits/kit.json]\n"
          "  2027-06-01  163 days             far  [kits/kit.json]\n"
          "  2028-01-01  not calibrated yet   new  [kits/kit.json]\n"
          "              no due date          rule  [kits/kit.json]\n"
          "1 certificate is out of date; 2 certificates expire within 30 days; 1 instrument is not calibrated yet; 1 instrument has no due "
          "date.\n");
}

TEST_CASE("without a day nothing is judged, for there is no clock in it") {
    const Ran ran = Shelf().listed();
    CHECK_THAT(ran.out, Contains("  2026-12-19                       level: serial N-1") && !Contains("OUT OF DATE"));
    CHECK_THAT(ran.out, Contains("Give --on DATE to see what is out of date on that day.\n"));
    CHECK(Shelf().listed(" --on 20.12.2026").code == 2);
    CHECK(Shelf().listed(" --on 2026-02-30").code == 2);
}

TEST_CASE("faults of all facts of a folder are told at once; a folder without any is told as such") {
    const Shelf shelf;
    (void)shelf.folder.file("bad.json", R"({"format": "wayfolio-facts", "version": 1, "instruments": [{"due": "soon"}]})");
    (void)shelf.folder.file("cut.json", R"({"format": "wayfolio-facts", )");
    const Ran ran = shelf.listed();
    CHECK(ran.code == 65);
    CHECK_THAT(ran.err, Contains("bad.json:1:") && Contains("/instruments/0/due") && Contains("cut.json:1:"));
    const TemporaryFolder empty;
    CHECK(called_with("facts " + empty.path().string()).code == 66);
    CHECK(called_with("facts " + empty / "none").code == 66);
    CHECK(called_with("facts").code == 2);
}

TEST_CASE("the catalogue finds the jobs that an instrument was used in") {
    const TemporaryFolder folder;
    for (const std::string sample : {"short-axis", "long-axis", "smallest"})
        REQUIRE(called_with("record " + source_folder + "/sample-results/" + sample + ".json -o " + folder / "records/" + sample).code ==
                0);
    const Ran ran = called_with("catalogue " + folder / "records" + " --instrument P-017");
    CHECK(ran.code == 0);
    CHECK_THAT(ran.out, Contains("long-axis/revision-1") && Contains("1 visit\n"));
    CHECK_THAT(called_with("catalogue " + folder / "records" + " --instrument P-01").out, Contains("0 visits"));
}
