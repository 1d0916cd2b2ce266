#include "commands/program.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio::testing;
using Catch::Matchers::Contains;
using wayfolio::support::file_bytes;

namespace {

/// A plan of two errors, and exports of one of them.
struct PlannedJob {
    TemporaryFolder folder;
    std::string plan = folder / "plan.json";
    std::string mapping = folder.file("m.json", R"({"format": "wayfolio-mapping", "version": 1,
 "series": [{"id": "x-exx", "error": "EXX", "unit": "um", "position_unit": "mm", "sign": "actual-minus-target"}],
 "exports": [{"file": "*.csv", "position": {"column": "T"}, "approach": {"column": "D", "positive": ["+"], "negative": ["-"]},
   "run": {"column": "R"}, "time": {"column": "C"}, "values": [{"series": "x-exx", "column": "V"}]}]})");
    Ran planned = called_with("plan EXX EYX --travel 0:500 --runs 2 --feed 3000 --dwell 2 -o " + plan + " --sheet " + folder / "plan.pdf");

    /// Two runs each way over the five targets of the plan, at a minute each; `order` names their approaches.
    [[nodiscard]] std::string readings(const std::string& order, const std::string& cut = "") const {
        const std::string json = file_bytes(plan);
        std::vector<std::string> targets;
        std::istringstream list(json.substr(json.find("\"targets\": [") + 12));
        for (std::string number; targets.size() < 5 && std::getline(list, number, ',');)
            targets.push_back(number.substr(0, number.find(']')));
        std::string csv = "T,D,R,V,C\n";
        for (std::size_t run = 0; run < order.size(); ++run)
            for (const std::string& target : targets)
                if (cut.empty() || target.find(cut) == std::string::npos)
                    csv += target + "," + order[run] + "," + std::to_string(run + 1) + ",0." + std::to_string(run) +
                           ",2026-05-11T08:" + std::to_string(10 + run) + "\n";
        return folder.file("x.csv", csv);
    }
    [[nodiscard]] Ran gather(const std::string& readings) const {
        return called_with("gather " + mapping + " " + readings + " --into " + plan + " -o " + folder / "d.json");
    }
    [[nodiscard]] std::string check() const { return called_with("check --all " + folder / "d.json").out; }
};

}  // namespace

TEST_CASE("a plan is an empty document and a sheet, and tells what it holds") {
    const PlannedJob job;
    CHECK(job.planned.err == "");
    CHECK(job.planned.code == 0);
    CHECK_THAT(job.planned.out, Contains("2 series are planned:\n  x-exx: EXX positioning error of X\n"));
    CHECK_THAT(job.planned.out, Contains("5 targets from 0 mm to 500 mm, 10 a metre") && Contains("Time: a run 20 s, a series 1 min 20 s"));
    CHECK_THAT(job.planned.out, Contains("  NOT MET 2 runs in each approach; ISO 230-2:2014 asks for at least 5 in each approach."));
    const std::string words = run("pdftotext -layout " + job.folder / "plan.pdf" + " -").out;
    CHECK_THAT(words, Contains("Plan of measurement: axis X") && Contains("EYX: straightness error of X in Y") && Contains("Target / mm"));
    CHECK_THAT(run("pdfdetach -list " + job.folder / "plan.pdf").out, Contains("wayfolio-plan.json"));
    CHECK(called_with("conformance " + job.folder / "plan.pdf").code == 0);
    const Ran checked = called_with("check " + job.plan);
    CHECK(checked.code == 65);
    CHECK_THAT(checked.err + checked.out, Contains("this is a plan: wayfolio gather --into puts the readings into it"));
}

TEST_CASE("readings go into the plan series by series; check says what is still planned, which runs are open and which target is missing") {
    const PlannedJob job;
    const Ran whole = job.gather(job.readings("+-+-"));
    CHECK(whole.err == "");
    CHECK_THAT(whole.out, Contains("  x-eyx: planned, no readings yet\n"));
    CHECK_THAT(job.check(), Contains("[planned-series-open]") && Contains("series x-eyx (/series/1)") &&
                                !Contains("[order-not-as-planned]") && !Contains("[fewer-runs-than-planned]"));
    REQUIRE(job.gather(job.readings("+-+")).code == 0);
    CHECK_THAT(job.check(), Contains("1 of 2 planned runs in the negative approach") && Contains("[fewer-runs-than-planned]"));
    REQUIRE(job.gather(job.readings("+-+-", "500")).code == 0);
    CHECK_THAT(job.check(), Contains("[targets-unread]"));
    CHECK_THAT(file_bytes(job.folder / "d.json"), Contains("null"));
}

TEST_CASE("runs that were not made in the planned order are told") {
    const PlannedJob job;
    REQUIRE(job.gather(job.readings("++--")).code == 0);
    CHECK_THAT(job.check(), Contains("the runs were planned in turn, there and back; this one is out of turn") &&
                                Contains("run 2 positive (/series/0/runs/1)") && Contains("[order-not-as-planned]"));
    std::string turned = file_bytes(job.readings("+-+-"));
    for (std::size_t at = turned.find("08:12"); at != std::string::npos; at = turned.find("08:12")) turned.replace(at, 5, "07:00");
    REQUIRE(job.gather(job.folder.file("x.csv", turned)).code == 0);
    CHECK_THAT(job.check(), Contains("the run began before the one that stands before it"));
}

TEST_CASE("a reading at a target that the plan does not have is a fault in the export") {
    const PlannedJob job;
    const Ran ran = job.gather(job.folder.file("x.csv", "T,D,R,V,C\n0,+,1,0.1,2026-05-11T08:10\n77,+,1,0.1,2026-05-11T08:10\n"));
    CHECK(ran.code == 65);
    CHECK_THAT(ran.err, Contains("x.csv:3:8: found position 77; expected one of the targets of series \"x-exx\" (the nearest is 97.7 mm)"));
}

TEST_CASE("a plan says what it needs") {
    const TemporaryFolder folder;
    const std::string out = " -o " + folder / "p.json";
    for (const std::string& bad : std::vector<std::string>{
             "", "EXX", "EXX EYY --travel 0:1", "EXX EXX --travel 0:1", "EQQ --travel 0:1", "EXX --travel 5:5", "EXX --travel 5",
             "EXX --travel 0:100 --runs 0", "EXX --travel 0:100 --targets 2", "EXX --travel 0:100 --unit deg",
             "ECC --travel 0:360 --unit mm", "EXX --travel 0:100 --sheet " + folder / "p.json"}) {
        CAPTURE(bad);
        const int code = called_with("plan " + bad + out).code;
        CHECK((code == 2 || (bad == "EXX" && code == 65)));
        CHECK_FALSE(std::filesystem::exists(folder / "p.json"));
    }
}

TEST_CASE("what no plan can be made of is told at once: places without end, numbers that are none, a travel of thousands of targets") {
    const TemporaryFolder folder;
    const std::string out = " -o " + folder / "p.json", limited = "timeout 20 " + program + " plan ";
    for (const auto& [bad, code] : std::vector<std::pair<std::string, int>>{{"EXX --travel 0:inf", 2},
                                                                           {"EXX --travel nan:5", 2},
                                                                           {"EXX --travel 0:1e300", 65},
                                                                           {"EXX --travel 0:1e8", 65},
                                                                           {"EXX --travel 0:900000", 65},
                                                                           {"EXX --travel -1e7:-9999999", 65},
                                                                           {"ECC --travel 0:1e6", 65},
                                                                           {"ECC --travel 0:1e13", 65},
                                                                           {"EXX --travel 0:400 --feed nan --dwell 4", 2},
                                                                           {"EXX --travel 0:400 --feed 0 --dwell 4", 2},
                                                                           {"EXX --travel 0:400 --feed 100 --dwell inf", 2},
                                                                           {"EXX --travel 0:400 --feed 100 --dwell -3", 2},
                                                                           {"EXX --travel 0:400 --state a --state a", 2}}) {
        CAPTURE(bad);
        const Ran ran = run(limited + bad + out);
        CHECK(ran.code == code);
        CHECK_FALSE(ran.err.empty());
        CHECK_FALSE(std::filesystem::exists(folder / "p.json"));
    }
}
