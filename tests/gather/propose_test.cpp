#include "gather/propose/propose.hpp"
#include "gather/gathering.hpp"
#include "gather/mapping/mapping.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::gather;
using namespace wayfolio::gather::testing;
using Catch::Matchers::Contains;

namespace {

std::vector<std::string> open_places(const std::string& mapping) {
    std::vector<std::string> places;
    try {
        (void)read_mapping(mapping, "m.json");
    } catch (const input::InputRejected& rejected) {
        for (const auto& problem : rejected.problems()) places.push_back(problem.place.pointer);
    }
    return places;
}

}  // namespace

TEST_CASE("a proposal says what the export says, leaves open what it does not, and gathers once that is filled in") {
    const std::string text =
        "Invented data\n\nTarget [mm];Direction;Run;EXX [\u00b5m];Time\n0;+;1;0,10;11.05.2026 08:10\n250;+;1;-1,4;11.05.2026 08:11\n"
        "250;-;1;1,2;11.05.2026 08:12\n";
    const Proposal proposal = propose(exports_of({{"x-1.csv", text}}));
    CHECK(open_places(proposal.mapping) == std::vector<std::string>{"/series/0/sign", "/exports/0/time/offset"});
    CHECK_THAT(preview_text(proposal),
               Contains("\"EXX [\u00b5m]\"") && Contains("readings, of EXX, in um") && Contains("0,10 | -1,4 | 1,2"));
    CHECK_THAT(words_of(proposal.mapping, {{"x-1.csv", text}}), Contains("found an open place"));
    const std::string whole =
        filled(proposal.mapping, {{R"("sign": "?")", R"("sign": "actual-minus-target")"}, {R"("offset": "?")", R"("offset": "+02:00")"}});
    CHECK(words_of(whole, {{"x-1.csv", text}}) ==
          "0 250 | + 0.10 -1.4 @2026-05-11T08:10+02:00..2026-05-11T08:11+02:00 | - _ 1.2 @2026-05-11T08:12+02:00");
}

TEST_CASE("nothing is guessed: words for the approach, error and unit, exchanged days, both readings of a mark") {
    const Proposal words = propose(exports_of({{"x.csv", "Nominal,Dir,Cycle,Value\n0,up,1,0.1\n5,down,1,0.2\n"}}));
    CHECK(open_places(words.mapping) == std::vector<std::string>{"/series/0/error", "/series/0/unit", "/series/0/position_unit",
                                                                 "/series/0/sign", "/exports/0/approach/positive/0",
                                                                 "/exports/0/approach/negative/0"});
    CHECK_THAT(propose(exports_of({{"x.csv", "Target,Run,EXX,Date\n0,1,0.1,05/06/2026\n1,1,0.2,05/06/2026\n"}})).mapping,
               Contains(R"("form": "?")"));
    CHECK_THAT(propose(exports_of({{"x.csv", "Target;Run;EXX\n0;1;1,234\n1;1;2,345\n"}})).mapping, Contains(R"("decimal_mark": "?")"));
}

TEST_CASE("columns that are runs or targets, files that differ in their numbers, and environment logs are seen") {
    CHECK_THAT(propose(exports_of({{"x.csv", "Target\tRun 1\tRun 2\n0\t0.1\t0.2\n5\t0.3\t0.4\n"}})).mapping,
               Contains(R"("delimiter": "tab")") && Contains(R"("columns": "Run #")"));
    CHECK_THAT(propose(exports_of({{"x.csv", "Run,0 mm,250 mm\n1,0.1,0.2\n2,0.3,0.4\n"}})).mapping,
               Contains(R"("columns": "# mm")") && Contains(R"("are": "targets")"));
    const std::string run = "Target,EXX\n0,1.5\n5,2.5\n";
    CHECK_THAT(propose(exports_of({{"x-1.csv", run}, {"x-2.csv", run}})).mapping, Contains(R"("file": "x-*.csv")"));
    const std::string log =
        propose(exports_of({{"log.csv", "Time,Air [\u00b0C],Pressure [kPa]\n2026-05-11T08:10,20.1,100.5\n2026-05-11T08:20,20.2,100.6\n"}}))
            .mapping;
    CHECK_THAT(log, Contains(R"("air_C": {"column": "Air [°C]", "unit": "C"})") && Contains(R"("unit": "kPa")") && !Contains("values"));
    CHECK_THAT(propose(exports_of({{"x.csv", "Position [deg],Run,ECC\n0,1,0.1\n90,1,0.2\n"}})).mapping,
               Contains(R"("position_unit": "deg")"));
    CHECK_THAT(propose(exports_of({{"x.csv", "Run,0 mm,250 mm\n1,0.1,0.2\n2,0.3,0.4\n"}})).mapping, Contains(R"("position_unit": "mm")"));
    CHECK_THAT(propose(exports_of({{"x.csv", "Target [m],Run,EXX\n0,1,0.1\n1,1,0.2\n"}})).mapping, Contains(R"("position_unit": "?")"));
    CHECK_THROWS_AS(propose(exports_of({{"x.txt", "no readings here\n"}})), input::InputRejected);
}

TEST_CASE("lines above the head that name run, approach, time and error are seen; words for the approach stay open") {
    const std::string text =
        "Invented data\n\nRun\t1\nDirection\tforward\nStarted\t2026-04-21T09:30+02:00\nError\tEAX\nTarget [mm]\tPitch\n"
        "0\t0.8\n250\t-0.1\n";
    const Proposal proposal = propose(exports_of({{"x.txt", text}}));
    CHECK_THAT(proposal.mapping, Contains(R"("run": {"above": "Run"})") && Contains(R"("above": "Direction")") &&
                                     Contains(R"("time": {"above": "Started"})") && Contains(R"("error": "EAX")"));
    CHECK(open_places(proposal.mapping) ==
          std::vector<std::string>{"/series/0/unit", "/series/0/sign", "/exports/0/approach/positive/0", "/exports/0/approach/negative/0"});
    const std::string whole = filled(proposal.mapping, {{R"("unit": "?")", R"("unit": "urad")"},
                                                        {R"("sign": "?")", R"("sign": "actual-minus-target")"},
                                                        {R"("positive": ["?"])", R"("positive": ["forward"])"},
                                                        {R"("negative": ["?"])", R"("negative": ["back"])"}});
    CHECK(words_of(whole, {{"x.txt", text}}) == "0 250 | + 0.8 -0.1 @2026-04-21T09:30+02:00");
    const std::string two = "Error;EXX and EYX\nRun;1\nTarget;A;B\n0;1;2\n5;1;2\n";
    CHECK_THAT(propose(exports_of({{"x.txt", two}})).mapping, !Contains("EXX"));
}

TEST_CASE("columns of a log that no word explains are sensors, with their unit open") {
    const std::string log =
        "Time;Air;Pressure;Bed near;Bed far\n2026-04-21 07:20;20,42;1008,2;20,3;20,42\n2026-04-21 07:30;20,45;1008,2;20,3;20,43\n";
    const Proposal proposal = propose(exports_of({{"log.csv", log}}));
    CHECK_THAT(proposal.mapping, Contains(R"("Bed near": {"column": "Bed near", "unit": "?"})") && !Contains("values"));
    CHECK(open_places(proposal.mapping) == std::vector<std::string>{"/exports/0/time/offset", "/exports/0/environment/air_C/unit",
                                                                    "/exports/0/environment/pressure_hPa/unit",
                                                                    "/exports/0/environment/machine_C/Bed near/unit",
                                                                    "/exports/0/environment/machine_C/Bed far/unit"});
    CHECK_THAT(propose(exports_of({{"x.csv", "Time,Target,Value\n2026-04-21T07:20,0,1.5\n2026-04-21T07:21,5,2.5\n"}})).mapping,
               Contains("\"values\"") && !Contains("machine_C"));
}

TEST_CASE("columns there and back are runs of one series; which way is positive stays open, and other pairs stay two series") {
    const std::string text =
        "Target [mm];Run 1 up [\u00b5m];Run 1 down [\u00b5m];Run 2 up [\u00b5m];Run 2 down [\u00b5m]\n0;0.1;-0.5;0.7;-0.2\n"
        "250;2.4;0.7;2.8;1.2\n";
    const Proposal proposal = propose(exports_of({{"x.csv", text}}));
    CHECK(open_places(proposal.mapping) ==
          std::vector<std::string>{"/series/0/error", "/series/0/sign", "/exports/0/values/0/approach", "/exports/0/values/1/approach"});
    const std::string whole = filled(proposal.mapping, {{R"("error": "?")", R"("error": "EYX")"},
                                                        {R"("sign": "?")", R"("sign": "actual-minus-target")"},
                                                        {R"("approach": "?")", R"("approach": "negative")"},
                                                        {R"("approach": "?")", R"("approach": "positive")"}});
    CHECK(words_of(whole, {{"x.csv", text}}) == "0 250 | - 0.1 2.4 | + -0.5 0.7 | - 0.7 2.8 | + -0.2 1.2");
    const std::string two = "Target,Run 1 hor,Run 1 vert,Run 2 hor,Run 2 vert\n0,1,2,3,4\n5,1,2,3,4\n";
    CHECK_THAT(propose(exports_of({{"x.csv", two}})).mapping, Contains("series-2") && Contains(R"("approach": "?")"));
}
