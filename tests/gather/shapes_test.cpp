#include "gather/gathering.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::gather;
using namespace wayfolio::gather::testing;

namespace {

const std::string rows_of_positions =
    R"("position": {"column": "Target"}, "approach": {"column": "Dir", "positive": ["+"], "negative": ["-"]}, "run": {"column": "Run"},
       "values": [{"series": "x", "column": "Actual", "reads": "position"}])";

/// ASCII as UTF-16, low byte first.
std::string utf16(const std::string& text) {
    std::string bytes;
    for (const char letter : text) bytes += std::string{letter, '\0'};
    return bytes;
}

struct Case {
    std::string what, mapping;
    Files files;
    std::string expected;
};

}  // namespace

TEST_CASE("exports of every shape and dialect give exactly the document that they must") {
    const std::vector<Case> cases{
        {"one row a reading",
         mapping_of(rows),
         {{"x.csv", "Target,Dir,Run,Dev\r\n0,+,1,0.10\r\n250,+,1,1.4\r\n250,-,1,2\r\n0,-,1,-0.6\r\n"}},
         "0 250 | + 0.10 1.4 | - -0.6 2"},
        {"semicolons, decimal commas, blanks around cells, a last line without end",
         mapping_of(rows + R"(, "delimiter": ";", "decimal_mark": ",")"),
         {{"x.csv", "Target ; Dir; Run;Dev\n0; +; 1; 0,10\n250;+;1;1,4"}},
         "0 250 | + 0.10 1.4"},
        {"tabs and thousands marks",
         mapping_of(rows + R"(, "delimiter": "tab", "thousands_mark": ",")"),
         {{"x.txt", "Dev\tRun\tDir\tTarget\n1,234.5\t1\t+\t1,000\n-0.5\t1\t+\t0\n2\t1\t+\t2,000\n"}},
         "0 1000 2000 | + -0.5 1234.5 2"},
        {"runs of blanks",
         mapping_of(rows + R"(, "delimiter": "blanks")"),
         {{"x.txt", "  Target  Dir  Run    Dev\n     0    +    1   0.10\n   250    +    1  -1.40\n"}},
         "0 250 | + 0.10 -1.40"},
        {"UTF-16 with its mark", mapping_of(rows), {{"x.csv", "\xFF\xFE" + utf16("Target,Dir,Run,Dev\n0,+,1,2")}}, "0 | + 2"},
        {"Latin-1 and a unit in the head that agrees",
         mapping_of(R"("encoding": "latin-1", "position": {"column": "T [mm]"}, "approach": "positive", "run": "file",
                       "values": [{"series": "x", "column": "E [µm]"}])"),
         {{"x.csv", "T [mm],E [\xB5m]\n0,1\n"}},
         "0 | + 1"},
        {"a quoted head over two lines, and quotes in cells",
         mapping_of(R"("position": {"column": "Target\nmm"}, "approach": "negative", "run": "file", "values": [{"series": "x", )"
                    R"("column": "a \"b\""}])"),
         {{"x.csv", "\"Target\nmm\",\"a \"\"b\"\"\"\n\"0\",\"1.5\"\n"}},
         "0 | - 1.5"},
        {"head lines and comments before the head, empty lines among the rows",
         mapping_of(rows + R"(, "comment": "#")"),
         {{"x.csv", "Invented data\n# made for a test, \"\nDate,2026-05-11\n\nTarget,Dir,Run,Dev\n\n0,+,1,1\n# one more\n\n5,+,1,2\n"}},
         "0 5 | + 1 2"},
        {"rows end at an empty one",
         mapping_of(rows + R"(, "ends": "empty-row")"),
         {{"x.csv", "Target,Dir,Run,Dev\n0,+,1,1\n\nmean,1\n"}},
         "0 | + 1"},
        {"missing cells, words for missing ones, and rows that end before their last cell",
         mapping_of(rows + R"(, "missing": ["---", "NaN"])"),
         {{"x.csv", "Target,Dir,Run,Dev\n0,+,1,\n1,+,1,---\n2,+,1,NaN\n3,+,1\n4,+,1,0.5\n"}},
         "0 1 2 3 4 | + _ _ _ _ 0.5"},
        {"a run that lacks a target",
         mapping_of(rows),
         {{"x.csv", "Target,Dir,Run,Dev\n0,+,1,1\n5,+,1,2\n0,+,2,3\n"}},
         "0 5 | + 1 2 | + 3 _"},
        {"runs by their numbers, whatever their order in the file",
         mapping_of(rows),
         {{"x.csv", "Target,Dir,Run,Dev\n0,+,2,2\n0,+,10,10\n0,-,1,-1\n0,+,1,1\n"}},
         "0 | - -1 | + 1 | + 2 | + 10"},
        {"runs by names, in their order", mapping_of(rows), {{"x.csv", "Target,Dir,Run,Dev\n0,+,b,2\n0,+,a,1\n"}}, "0 | + 2 | + 1"},
        {"target minus actual stays as it is written",
         mapping_of(rows).replace(mapping_of(rows).find("actual-minus-target"), 19, "target-minus-actual"),
         {{"x.csv", "Target,Dir,Run,Dev\n0,+,1,1.5\n"}},
         "0 | + 1.5"},
        {"deviations from actual positions are exact",
         mapping_of(rows_of_positions),
         {{"x.csv", "Target,Dir,Run,Actual\n0,+,1,-0.0003\n250,+,1,250.0014\n500.1,+,1,500.1\n"}},
         "0 250 500.1 | + -0.3 1.4 0"},
        {"and with the sign of the series",
         mapping_of(rows_of_positions).replace(mapping_of(rows).find("actual-minus-target"), 19, "target-minus-actual"),
         {{"x.csv", "Target,Dir,Run,Actual\n250,+,1,250.0014\n"}},
         "250 | + -1.4"},
        {"columns by number, from a line on",
         mapping_of(R"("first_row": 3, "position": {"column": 1}, "approach": "positive", "run": {"column": 2}, "values": )"
                    R"([{"series": "x", "column": 3}])"),
         {{"x.csv", "no head here\nneither,here\n0,1,0.5\n1,1,0.6\n"}},
         "0 1 | + 0.5 0.6"},
        {"one row a target, one column a run",
         mapping_of(R"("position": {"column": "Target"}, "values": [{"series": "x", "columns": ["U1", "U2"], "approach": "positive"},
                       {"series": "x", "columns": ["D1", "D2"], "approach": "negative"}])"),
         {{"x.csv", "Target,U1,D1,U2,D2\n0,1,2,3,4\n5,5,6,7,8\n"}},
         "0 5 | + 1 5 | - 2 6 | + 3 7 | - 4 8"},
        {"columns by a pattern of their heads: as many runs as there are",
         mapping_of(R"("position": {"column": "Target"}, "values": [{"series": "x", "columns": "Run # up", "approach": "positive"},
                       {"series": "x", "columns": "Run # down", "approach": "negative"}])"),
         {{"x.csv", "Target,Run 1 up,Run 1 down,Run 3 up,Note\n0,1,2,3,n\n"}},
         "0 | + 1 | - 2 | + 3"},
        {"one row a target and approach, one column a run",
         mapping_of(R"("position": {"column": "T"}, "approach": {"column": "approach"}, "values": [{"series": "x", "columns": "r#"}])"),
         {{"x.csv", "T,approach,r1,r2\n0,positive,1,2\n0,negative,3,4\n"}},
         "0 | + 1 | - 3 | + 2 | - 4"},
        {"a run without a single reading is none",
         mapping_of(R"("position": {"column": "T"}, "approach": {"column": "approach"}, "values": [{"series": "x", "columns": "r#"}])"),
         {{"x.csv", "T,approach,r1,r2\n0,positive,1,\n0,negative,,\n5,positive,,\n5,negative,,\n"}},
         "0 5 | + 1 _"},
        {"one row a run, the targets in the heads",
         mapping_of(R"("run": {"column": "Run"}, "approach": {"column": "Dir", "positive": ["+"], "negative": ["-"]},
                       "values": [{"series": "x", "columns": "# mm", "are": "targets"}])"),
         {{"x.csv", "Run,Dir,0 mm,250.5 mm\n1,+,1,2\n1,-,3,4\n"}},
         "0 250.5 | + 1 2 | - 3 4"},
        {"one row a run, the targets in the mapping",
         mapping_of(R"("run": "row", "approach": "positive", "values": [{"series": "x", "columns": ["a", "b"], "are": "targets"}])",
                    R"("targets": [10, 20])"),
         {{"x.csv", "a,b\n1,2\n3,4\n"}},
         "10 20 | + 1 2 | + 3 4"},
        {"one file a run, in the order of their numbers",
         mapping_of(R"("position": {"column": "T"}, "approach": {"above": "Dir", "positive": ["up"], "negative": ["down"]}, )"
                    R"("run": "file",
                       "values": [{"series": "x", "column": "D"}])"),
         {{"x10.csv", "Dir,up\nT,D\n0,10\n"}, {"x2.csv", "Dir: down\nT,D\n0,2\n"}, {"x1.csv", "a,Dir:,,up\nT,D\n0,1\n"}},
         "0 | + 1 | - 2 | + 10"},
        {"a plain sequence, both ways",
         mapping_of(R"("position": {"column": "T"}, "motion": ["positive", "negative"], "values": [{"series": "x", "column": "D"}])"),
         {{"x.csv", "T,D\n0,1\n5,2\n10,3\n10,4\n5,5\n0,6\n0,7\n5,8\n"}},
         "0 5 10 | + 1 2 3 | - 6 5 4 | + 7 8 _"},
        {"a plain sequence without a second stop at the ends",
         mapping_of(R"("position": {"column": "T"}, "motion": ["positive", "negative"], "values": [{"series": "x", "column": "D"}])"),
         {{"x.csv", "T,D\n0,1\n5,2\n10,3\n5,5\n0,6\n"}},
         "0 5 10 | + 1 2 3 | - 6 5 _"},
        {"a plain sequence, one way",
         mapping_of(R"("position": {"column": "T"}, "motion": ["negative"], "values": [{"series": "x", "column": "D"}])"),
         {{"x.csv", "T,D\n5,1\n0,2\n5,3\n0,4\n"}},
         "0 5 | - 2 1 | - 4 3"},
        {"a plain sequence of actual positions near named targets",
         mapping_of(R"("position": "nearest", "motion": ["positive", "negative"], "values": [{"series": "x", "column": "A", "reads": )"
                    R"("position"}])",
                    R"("targets": [0, 5, 10])"),
         {{"x.csv", "A\n0.0001\n5.002\n9.9999\n10.0001\n4.999\n-0.0002\n"}},
         "0 5 10 | + 0.1 2 -0.1 | - -0.2 -1 0.1"},
        {"values alone, in the order of named targets",
         mapping_of(R"("position": "in-order", "approach": "negative", "run": {"column": "R"}, "values": [{"series": "x", )"
                    R"("column": "D"}])",
                    R"("targets": [0, 5])"),
         {{"x.csv", "R,D\n1,1\n1,2\n2,3\n2,\n"}},
         "0 5 | - 1 2 | - 3 _"},
        {"values alone, along the travel",
         mapping_of(R"("position": "along-travel", "approach": "negative", "run": {"column": "R"}, "values": [{"series": "x", )"
                    R"("column": "D"}])",
                    R"("targets": [0, 5])"),
         {{"x.csv", "R,D\n1,1\n1,2\n"}},
         "0 5 | - 2 1"},
        {"blocks, each with a head and its run and approach above it",
         mapping_of(R"("delimiter": ";", "position": {"column": "T"}, "run": {"above": "Run"}, "approach": {"above": "Direction", )"
                    R"("positive": ["+"], "negative": ["-"]},
                       "values": [{"series": "x", "column": "D"}])"),
         {{"x.csv", "Run;1\nDirection;+\nT;D\n0;1\n5;2\n\nRun;1\nDirection;-\nT;D\n5;3\n0;4\nRun;2\nDirection;+\nT;D\n0;5\n5;6\n"}},
         "0 5 | + 1 2 | - 4 3 | + 5 6"},
        {"blocks whose approach is said once for all",
         mapping_of(R"("position": {"column": "T"}, "run": "block", "approach": {"above": "Approach"}, "values": [{"series": "x", )"
                    R"("column": "D"}])"),
         {{"x.csv", "Approach,positive\nT,D\n0,1\n\nT,D\n0,2\n"}},
         "0 | + 1 | + 2"},
        {"only the blocks of one quantity",
         mapping_of(R"("block": {"above": "Quantity", "is": "B"}, "position": {"column": "T"}, "run": "block", "approach": )"
                    R"("positive", "values": [{"series": "x", "column": "D"}])"),
         {{"x.csv", "Quantity,A\nT,D\n0,1\n\nQuantity,B\nT,D\n0,2\n"}},
         "0 | + 2"},
        {"marks with their reasons",
         mapping_of(rows + R"(, "excluded": {"column": "Mark", "reasons": {"x": "beam interrupted", "d": "door"}})"),
         {{"x.csv", "Target,Dir,Run,Dev,Mark\n0,+,1,9,x\n5,+,1,,d\n6,+,1,1,\n"}},
         "0 5 6 | + 9 _ 1 (0: beam interrupted) (1: door)"},
        {"a column of reasons",
         mapping_of(rows + R"(, "excluded": {"column": "Why not"})"),
         {{"x.csv", "Target,Dir,Run,Dev,Why not\n0,+,1,9,\"crane, passing\"\n"}},
         "0 | + 9 (0: crane, passing)"},
        {"marks as a readings table lists them",
         mapping_of(R"("position": {"column": "T"}, "approach": "positive", "values": [{"series": "x", "columns": "r#"}], )"
                    R"("excluded": {"column": "m", "form": "list"})"),
         {{"x.csv", "T,r1,r2,m\n0,,2,reading 1 (1.5): a; reading lost\n1,,,reading 1: b; reading 2 (-3): c (d): e\n"}},
         "0 1 | + 1.5 _ (0: a; reading lost) (1: b) | + 2 -3 (1: c (d): e)"},
        {"times of readings give those of runs",
         mapping_of(rows + R"(, "time": {"column": "Time"})"),
         {{"x.csv",
           "Target,Dir,Run,Dev,Time\n0,+,1,1,2026-05-11T08:10:00+02:00\n5,+,1,2,2026-05-11T08:12:30+02:00\n0,+,2,3,2026-05-11T08:20:00+02:"
           "00\n"}},
         "0 5 | + 1 2 @2026-05-11T08:10:00+02:00..2026-05-11T08:12:30+02:00 | + 3 _ @2026-05-11T08:20:00+02:00"},
        {"date and time apart, in a form of their own",
         mapping_of(rows + R"(, "time": {"columns": ["Day", "Clock"], "form": "DD.MM.YYYY hh:mm:ss", "offset": "+02:00"})"),
         {{"x.csv", "Day,Clock,Target,Dir,Run,Dev\n1.5.2026,8:05:09.5,0,+,1,1\n"}},
         "0 | + 1 @2026-05-01T08:05:09.5+02:00"},
        {"a clock without its day, and without its offset",
         mapping_of(rows + R"(, "time": {"column": "Clock", "form": "hh:mm", "date": "2026-05-11"})"),
         {{"x.csv", "Clock,Target,Dir,Run,Dev\n08:05,0,+,1,1\n"}},
         "0 | + 1 @2026-05-11T08:05"},
        {"a rotary axis",
         R"({"format": "wayfolio-mapping", "version": 1, "series": [{"id": "c", "error": "ECC", "unit": "arcsec", )"
         R"("position_unit": "deg", "sign": "actual-minus-target"}],
           "exports": [{"file": "x*", "position": {"column": "T"}, "approach": "positive", "run": "file", "values": )"
         R"([{"series": "c", "column": "A", "reads": "position"}]}]})",
         {{"x.csv", "T,A\n0,0.001\n90,89.9995\n"}},
         "0 90 | + 3.600 -1.8000"},
        {"inches",
         R"({"format": "wayfolio-mapping", "version": 1, "series": [{"id": "x", "error": "EXX", "unit": "uin", )"
         R"("position_unit": "in", "sign": "actual-minus-target"}],
           "exports": [{"file": "x*", "position": {"column": "T"}, "approach": "positive", "run": "file", "values": )"
         R"([{"series": "x", "column": "A", "reads": "position"}]}]})",
         {{"x.csv", "T,A\n0,0.000012\n10,9.99995\n"}},
         "0 10 | + 12 -50"},
        {"steps: the first station has no reading",
         R"({"format": "wayfolio-mapping", "version": 1, "series": [{"id": "x", "error": "EZX", "kind": "steps", "base_mm": )"
         R"(100, "unit": "arcsec", "position_unit": "mm",
            "sign": "actual-minus-target", "targets": [0, 100, 200]}], "exports": [{"file": "x*", "position": {"column": )"
         R"("S"}, "approach": "positive", "run": "file", "values": [{"series": "x", "column": "A"}]}]})",
         {{"x.csv", "S,A\n0,\n100,1\n200,2\n"}},
         "0 100 200 | + 1 2"},
        {"several quantities side by side, and one file for each of two more series",
         R"({"format": "wayfolio-mapping", "version": 1, "series": [
             {"id": "p", "error": "EXX", "unit": "um", "position_unit": "mm", "sign": "actual-minus-target"},
             {"id": "s", "error": "EYX", "unit": "um", "position_unit": "mm", "sign": "actual-minus-target"},
             {"id": "b", "error": "EBX", "unit": "urad", "position_unit": "mm", "sign": "actual-minus-target"}],
             "exports": [{"file": "x*", "position": {"column": "T"}, "approach": "positive", "run": "file", "values": )"
         R"([{"series": "p", "column": "P"}, {"series": "s", "column": "S"}]},
                         {"file": "b.csv", "position": {"column": "T"}, "approach": "positive", "run": "file", "values": )"
         R"([{"series": "b", "column": "A"}]}]})",
         {{"x.csv", "T,P,S\n0,1,2\n"}, {"b.csv", "T,A\n0,3\n"}},
         "0 | + 1\n0 | + 2\n0 | + 3"},
        {"a positive run that is only listed falling",
         mapping_of(rows + R"(, "falling_positive": true)"),
         {{"x.csv", "Target,Dir,Run,Dev\n9,+,1,3\n5,+,1,2\n0,+,1,1\n"}},
         "0 5 9 | + 1 2 3"},
        {"runs that nothing numbers, counted at their targets in each approach",
         mapping_of(
             R"("position": {"column": "T"}, "approach": {"column": "D"}, "run": "repeat", "values": [{"series": "x", "column": "V"}])"),
         {{"x.csv", "T,D,V\n0,positive,1\n0,positive,2\n5,positive,3\n5,negative,4\n5,positive,5\n0,negative,6\n"}},
         "0 5 | + 1 3 | - 6 4 | + 2 5"},
        {"a second head in the same file goes on",
         mapping_of(rows),
         {{"x.csv", "Target,Dir,Run,Dev\n0,+,1,1\nTarget,Dir,Run,Dev\n5,+,1,2\n"}},
         "0 5 | + 1 2"},
        {"numbers with signs, exponents and many digits",
         mapping_of(rows),
         {{"x.csv", "Target,Dir,Run,Dev\n0,+,1,+.5\n1,+,1,\u22122\n2,+,1,1.5e-3\n3,+,1,0.1000000000000000055511151231257827\n"}},
         "0 1 2 3 | + 0.5 -2 0.0015 0.1"},
    };
    CHECK(cases.size() >= 40);
    for (const Case& one : cases) {
        INFO(one.what);
        CHECK(words_of(one.mapping, one.files) == one.expected);
    }
}

TEST_CASE("an environment log becomes the environment record, in the document's units") {
    const std::string mapping =
        R"({"format": "wayfolio-mapping", "version": 1, "exports": [{"file": "log.csv", "delimiter": ";", "decimal_mark": ",",
        "time": {"column": "Time", "form": "YYYY/MM/DD hh:mm", "offset": "Z"}, "environment": {"air_C": {"column": "Air", "unit": "F"},
        "pressure_hPa": {"column": "P", "unit": "kPa"}, "humidity_percent": {"column": "H"}, "machine_C": {"bed": {"column": )"
        R"("T1"}}}}]})";
    CHECK_THAT(words_of(mapping, {{"log.csv", "Time;Air;P;H;T1\n2026/05/11 08:10;68,0;100,82;44;20,4\n"}}),
               Catch::Matchers::Contains("series"));
    const std::string with_series =
        mapping_of(rows).replace(mapping_of(rows).rfind("]}"), 2, ", " + mapping.substr(mapping.find("{\"file\": \"log")));
    const Gathered all =
        gathered(with_series, {{"x.csv", "Target,Dir,Run,Dev\n0,+,1,1\n"},
                               {"log.csv", "Time;Air;P;H;T1\n2026/05/11 08:10;68,0;100,82;44;20,4\n2026/05/11 08:20;;100,9;;\n"}});
    CHECK(all.account.surroundings == 2);
    CHECK(written(*document_of(all).member("environment")->member("samples")) ==
          R"([
  {"time": "2026-05-11T08:10Z", "air_C": 20, "pressure_hPa": 1008.2, "humidity_percent": 44, "machine_C": {"bed": 20.4}},
  {"time": "2026-05-11T08:20Z", "pressure_hPa": 1009}
]
)");
}

TEST_CASE("a record on the fly goes into a side file, which the document names") {
    const std::string mapping =
        R"({"format": "wayfolio-mapping", "version": 1, "series": [{"id": "x", "error": "EAX", "unit": "urad", "position_unit": "mm",
        "sign": "actual-minus-target"}], "exports": [{"file": "x*", "trace": {"series": "x", "position": "P", "value": "V", )"
        R"("approach": "positive", "side_file": "t.csv"}}]})";
    const Gathered all = gathered(mapping, {{"x.csv", "V,P\n0.50,0\n-1,0.1\n"}});
    REQUIRE(all.side_files.size() == 1);
    CHECK(all.side_files[0].name == "t.csv");
    CHECK(all.side_files[0].bytes == "position,value\n0,0.50\n0.1,-1\n");
    CHECK(written(*document_of(all).member("series")->items[0].member("trace")) == "{\"approach\": \"positive\", \"file\": \"t.csv\"}\n");
    CHECK(all.account.series[0].samples == 2);
}

TEST_CASE("a record on the fly of more samples than are held is gathered to its end, into a file beside the document") {
    const std::string mapping =
        R"({"format": "wayfolio-mapping", "version": 1, "series": [{"id": "x", "error": "EAX", "unit": "urad", "position_unit": "mm",
        "sign": "actual-minus-target"}], "exports": [{"file": "x*", "trace": {"series": "x", "position": "P", "value": "V", )"
        R"("side_file": "t.csv"}}]})";
    std::string text;
    for (int sample = 0; sample < 150'000; ++sample) text += std::to_string(sample) + ",1.5\n";
    const Gathered all = gathered(mapping, {{"x.csv", "P,V\n" + text}});
    CHECK(all.account.series.at(0).samples == 150'000);
    CHECK(all.side_files.at(0).bytes == "position,value\n" + text);
}
