#include "gather/gathering.hpp"

#include <catch2/catch.hpp>

#include <regex>

using namespace wayfolio;
using namespace wayfolio::gather;
using namespace wayfolio::gather::testing;

namespace {

const std::string head = "Target,Dir,Run,Dev\n";

struct Broken {
    std::string what, mapping;
    Files files;
    std::string fault;  ///< begins so
};

std::string in_order(const std::string& more = "") {
    return mapping_of(
        R"("position": "in-order", "approach": "positive", "run": {"column": "R"}, "values": [{"series": "x", "column": "D"}])" + more,
        R"("targets": [0, 5, 10])");
}

}  // namespace

TEST_CASE("broken exports are refused with the fault, its place and a hint") {
    const std::string motion =
        mapping_of(R"("position": {"column": "T"}, "motion": ["positive", "negative"], "values": [{"series": "x", "column": "D"}])");
    const std::string blocks = mapping_of(
        R"("position": {"column": "T"}, "run": {"above": "Run"}, "approach": "positive", "values": [{"series": "x", "column": "D"}])");
    const std::string marked = mapping_of(rows + R"(, "excluded": {"column": "M", "reasons": {"x": "beam"}})");
    const std::string timed = mapping_of(rows + R"(, "time": {"column": "Time", "form": "DD.MM.YYYY hh:mm"})");
    const std::string blanks = mapping_of(rows + R"(, "delimiter": "blanks")");
    const std::vector<Broken> cases{
        {"a decimal comma in a file of points",
         mapping_of(rows + R"(, "delimiter": ";")"),
         {{"x.csv", "Target;Dir;Run;Dev\n0;+;1;1,4\n"}},
         "x.csv:2:7: found \"1,4\"; expected a number with a decimal point in column \"Dev\" (a decimal comma? say \"decimal_mark\": "
         "\",\""},
        {"a decimal point in a file of commas",
         mapping_of(rows + R"(, "decimal_mark": ",", "delimiter": ";")"),
         {{"x.csv", "Target;Dir;Run;Dev\n0;+;1;1.4\n"}},
         "x.csv:2:7: found \"1.4\"; expected a number with a decimal comma in column \"Dev\" (a decimal point?"},
        {"decimal commas between commas",
         mapping_of(rows),
         {{"x.csv", head + "0,+,1,1,4\n"}},
         "x.csv:2:1: found a row of 5 cells; expected 4 cells, as the head has (decimal commas between commas?)"},
        {"thousands marks that nobody named",
         mapping_of(rows),
         {{"x.csv", head + "0,+,1,1'000\n"}},
         "x.csv:2:7: found \"1'000\"; expected a number with a decimal point in column \"Dev\" (thousands marks?"},
        {"a word among numbers",
         mapping_of(rows),
         {{"x.csv", head + "0,+,1,n/a\n"}},
         "x.csv:2:7: found \"n/a\"; expected a number with a decimal point in column \"Dev\" (list the word under \"missing\""},
        {"a unit in a cell",
         mapping_of(rows),
         {{"x.csv", head + "0,+,1,1.4 um\n"}},
         "x.csv:2:7: found \"1.4 um\"; expected a number with a decimal point in column \"Dev\" (a number alone"},
        {"an empty target",
         mapping_of(rows),
         {{"x.csv", head + ",+,1,1\n"}},
         "x.csv:2:1: found an empty cell; expected a number with a decimal point in column \"Target\""},
        {"an empty run",
         mapping_of(rows),
         {{"x.csv", head + "0,+,,1\n"}},
         "x.csv:2:5: found an empty cell; expected the name or number of a run in column \"Run\""},
        {"an unknown word for the approach",
         mapping_of(rows),
         {{"x.csv", head + "0,up,1,1\n"}},
         "x.csv:2:3: found \"up\"; expected a word for the approach: + or -"},
        {"an empty approach",
         mapping_of(rows),
         {{"x.csv", head + "0,,1,1\n"}},
         "x.csv:2:3: found an empty cell; expected a word for the approach"},
        {"a reading twice",
         mapping_of(rows),
         {{"x.csv", head + "0,+,1,1\n5,+,1,1\n0,+,1,2\n"}},
         "x.csv:4:7: found a second reading at 0 in run \"1\" (positive) of series \"x\"; expected one reading for each target and run "
         "(the first stands in line 2 of x.csv)"},
        {"a run read twice, in two files",
         mapping_of(rows),
         {{"x1.csv", head + "0,+,1,1\n5,+,1,2\n"}, {"x2.csv", head + "0,+,1,1\n5,+,1,2\n"}},
         "x2.csv:2:7: found a second reading at 0 in run \"1\" (positive) of series \"x\"; expected one reading for each "
         "target and run "
         "(the first stands in line 2 of x1.csv)"},
        {"falling targets named positive",
         mapping_of(rows),
         {{"x.csv", head + "9,+,1,1\n5,+,1,2\n0,+,1,3\n"}},
         "x.csv:4:7: found targets that fall to 0 in run \"1\", named positive; expected targets that rise in a positive run (are the "
         "words for positive and negative exchanged?"},
        {"a row fewer than there are targets",
         in_order(),
         {{"x.csv", "R,D\n1,1\n1,2\n1,3\n2,1\n2,2\n"}},
         "x.csv:6:3: found 2 rows in run \"2\" (positive); expected one for each of the 3 targets (a missing reading is an empty cell"},
        {"a row more than there are targets",
         in_order(),
         {{"x.csv", "R,D\n1,1\n1,2\n1,3\n1,4\n"}},
         "x.csv:5:3: found a reading more in run \"1\" (positive); expected one for each of the 3 targets"},
        {"a position that is no named target",
         mapping_of(rows, R"("targets": [0, 5])"),
         {{"x.csv", head + "0,+,1,1\n5.5,+,1,1\n"}},
         "x.csv:3:9: found position 5.5; expected one of the targets of series \"x\" (the nearest is 5 mm)"},
        {"an actual position far from all targets",
         mapping_of(R"("position": "nearest", "approach": "positive", "run": "file", "values": [{"series": "x", "column": "A", )"
                    R"("reads": "position"}])",
                    R"("targets": [0, 5])"),
         {{"x.csv", "A\n2.4\n"}},
         "x.csv:2:1: found position 2.4; expected a position near a target of series \"x\" (the nearest, 0, is further away"},
        {"no head",
         mapping_of(rows),
         {{"x.csv", "Target;Dir;Run;Dev\n0;+;1;1\n"}},
         "x.csv:1:1: found no such head; expected a row with the heads \"Target\", \"Dir\", \"Run\", \"Dev\" (is the "
         "delimiter the right "
         "one?)"},
        {"a misspelt head",
         mapping_of(rows),
         {{"x.csv", "note\nTarget,Dir,Run,Dve\n0,+,1,1\n"}},
         "x.csv:2:1: found a head without \"Dev\"; expected a row with the heads \"Target\", \"Dir\", \"Run\", \"Dev\" (did you mean "
         "\"Dve\"?)"},
        {"a head twice",
         mapping_of(rows),
         {{"x.csv", "Target,Dir,Run,Dev,Dev\n0,+,1,1,2\n"}},
         "x.csv:1:20: found a second column \"Dev\"; expected each head that the mapping names once (give the number of the "
         "column that is "
         "meant: 4 or 5)"},
        {"no rows", mapping_of(rows), {{"x.csv", head}}, "x.csv: found no row with readings; expected rows below the head"},
        {"an empty file", mapping_of(rows), {{"x.csv", ""}}, "x.csv:1:1: found no such head"},
        {"another unit in the head",
         mapping_of(
             R"("position": {"column": "T"}, "approach": "positive", "run": "file", "values": [{"series": "x", "column": "E [mm]"}])"),
         {{"x.csv", "T,E [mm]\n0,1\n"}},
         "x.csv:1:3: found the unit mm in the head \"E [mm]\"; expected um, as the mapping says (which of the two is right?)"},
        {"another unit of positions in the head",
         mapping_of(R"x("position": {"column": "T (in)"}, "approach": "positive", "run": "file", "values": [{"series": "x", )x"
                    R"x("column": "E"}])x"),
         {{"x.csv", "T (in),E\n0,1\n"}},
         "x.csv:1:1: found the unit in in the head \"T (in)\"; expected mm, as the mapping says"},
        {"no heads of the pattern",
         mapping_of(R"("position": {"column": "T"}, "approach": "positive", "values": [{"series": "x", "columns": "Run #"}])"),
         {{"x.csv", "T,Run A\n0,1\n"}},
         "x.csv:1:1: found a head without \"Run #\"; expected a row with the heads \"T\", \"Run #\" (# stands for a number"},
        {"heads that hold no position",
         mapping_of(R"("run": "row", "approach": "positive", "values": [{"series": "x", "columns": ["a", "b"], "are": "targets"}])"),
         {{"x.csv", "a,b\n1,2\n"}},
         "x.csv:1:1: found \"a\"; expected a head that begins with the target position"},
        {"an unknown mark",
         marked,
         {{"x.csv", "Target,Dir,Run,Dev,M\n0,+,1,1,q\n"}},
         "x.csv:2:9: found the mark \"q\"; expected a mark whose reason the mapping names"},
        {"a list of marks that is none",
         mapping_of(rows + R"(, "excluded": {"column": "M", "form": "list"})"),
         {{"x.csv", "Target,Dir,Run,Dev,M\n0,+,1,1,x\n"}},
         "x.csv:2:9: found \"x\"; expected marks as \"reading 2 (1.4): reason\""},
        {"a time in another form",
         timed,
         {{"x.csv", "Time,Target,Dir,Run,Dev\n2026-05-11 08:10,0,+,1,1\n"}},
         "x.csv:2:1: found \"2026-05-11 08:10\"; expected a time that exists, written DD.MM.YYYY hh:mm"},
        {"a time that does not exist",
         timed,
         {{"x.csv", "Time,Target,Dir,Run,Dev\n30.02.2026 08:10,0,+,1,1\n"}},
         "x.csv:2:1: found \"30.02.2026 08:10\"; expected a time that exists"},
        {"a run of one reading by motion",
         motion,
         {{"x.csv", "T,D\n0,1\n5,2\n0,3\n5,4\n5,5\n"}},
         "x.csv:6:3: found a run of one reading; expected runs of several"},
        {"a block without its run",
         blocks,
         {{"x.csv", "Run,1\nT,D\n0,1\n\nRun,2\nT,D\n0,2\n\nT,D\n0,3\n"}},
         "x.csv:9:1: found no text behind \"Run\" above this head; expected a cell \"Run\" in the lines above"},
        {"no block of the kind",
         mapping_of(R"("block": {"above": "Q", "is": "B"}, "position": {"column": "T"}, "run": "block", "approach": "positive", )"
                    R"("values": [{"series": "x", "column": "D"}])"),
         {{"x.csv", "Q,A\nT,D\n0,1\n"}},
         "x.csv: found no block of this kind; expected a block above which \"B\" stands behind \"Q\""},
        {"an empty cell between blanks",
         blanks,
         {{"x.csv", "Target Dir Run Dev\n0 + 1\n"}},
         "x.csv:2:1: found a row of 3 cells; expected 4 cells, as the head has (between blanks no cell can be empty"},
        {"a quote that nothing closes",
         mapping_of(rows),
         {{"x.csv", head + "0,+,1,\"1\n"}},
         "x.csv:2:7: found a cell in quotes that nothing closes"},
        {"Latin-1 that is read as UTF-8",
         mapping_of(rows),
         {{"x.csv", "\xB5\n" + head + "0,+,1,1\n"}},
         "x.csv:1:1: found the byte 0xB5; expected UTF-8 (say \"encoding\": \"latin-1\""},
        {"a reading beyond what the document takes",
         mapping_of(rows),
         {{"x.csv", head + "0,+,1,1\n5,+,1,5e6\n"}},
         "x.csv:3:1: found 5000000; expected "},
        {"two targets nearly at one place",
         mapping_of(rows),
         {{"x.csv", head + "0,+,1,1\n0.0000001,+,1,1\n"}},
         "the gathered document: /series/0/targets/1: found 0.0000001; expected targets at least 0.000001 mm apart"},
        {"a limit in the mapping that is none",
         mapping_of(rows, R"("tolerances": [{"parameter": "A", "limit": -1, "unit": "um"}])"),
         {{"x.csv", head + "0,+,1,1\n"}},
         "m.json:1:57: /series/0/tolerances/0/limit: found -1"},
        {"an instrument that the document has not",
         mapping_of(rows, R"("instrument": "laser")"),
         {{"x.csv", head + "0,+,1,1\n"}},
         "m.json:1:57: /series/0/instrument: found \"laser\"; expected the id of one of the instruments"},
        {"no file of the name",
         mapping_of(rows),
         {{"y.csv", head + "0,+,1,1\n"}},
         "m.json:1:167: /exports/0/file: found no export with the name \"x*\"; expected one of the exports given: y.csv"},
        {"a reading at the first station of steps",
         R"({"format": "wayfolio-mapping", "version": 1, "series": [{"id": "x", "error": "EZX", "kind": "steps", "base_mm": )"
         R"(100, "unit": "arcsec", "position_unit": "mm",
            "sign": "actual-minus-target", "targets": [0, 100]}], "exports": [{"file": "x*", "position": {"column": "S"}, )"
         R"("approach": "positive", "run": "file", "values": [{"series": "x", "column": "A"}]}]})",
         {{"x.csv", "S,A\n0,1\n100,1\n"}},
         "x.csv:2:3: found a reading at the first station"},
    };
    CHECK(cases.size() >= 40);
    for (const Broken& one : cases) {
        INFO(one.what);
        CHECK_THAT(words_of(one.mapping, one.files), Catch::Matchers::StartsWith(one.fault));
    }
}

TEST_CASE("all faults of all exports come at once; what is wrong the same way many times is told a few times and counted") {
    std::string many = head;
    for (int row = 0; row < 60; ++row) many += std::to_string(row) + ",+,1,\"1,4\"\n";
    const std::string said = words_of(mapping_of(rows), {{"x1.csv", many + "70,?,1,1\n"}, {"x2.csv", head + "0,+,1,x\n"}});
    CHECK(std::ranges::count(said, '\n') == 4);
    CHECK_THAT(said, Catch::Matchers::Contains("x1.csv:4:7: found \"1,4\"") && Catch::Matchers::Contains("and 57 more like it in "
                                                                                                         "this file)"));
    CHECK_THAT(said, Catch::Matchers::Contains("x1.csv:62:4: found \"?\"") && Catch::Matchers::Contains("x2.csv:2:7: found \"x\""));
}

TEST_CASE("a fault in a run of a series that is read a part at a time is told in the line of its export") {
    // 400 runs of 300 targets; one reading is more than a deviation can be
    std::string text = head;
    std::size_t line = 1, bad = 0;
    for (int run = 1; run <= 400; ++run)
        for (int target = 0; target < 300; ++target) {
            ++line;
            const bool here = run == 377 && target == 123;
            if (here) bad = line;
            text += fmt::format("{},+,{},{}\n", target, run, here ? "1e15" : "12.25");
        }
    CHECK_THAT(words_of(mapping_of(rows), {{"x.csv", text}}),
               Catch::Matchers::StartsWith(fmt::format("x.csv:{}:1: found 1000000000000000; expected a deviation in um", bad)));
    const std::string sound = std::regex_replace(text, std::regex("1e15"), "0.5");
    const Gathered all = gathered(mapping_of(rows), {{"x.csv", sound}});
    CHECK(all.account.series.front().used == 120'000);
    CHECK(document_of(all).member("series")->items[0].member("runs")->items.size() == 400);
}
