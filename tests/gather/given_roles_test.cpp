#include "gather/gathering.hpp"
#include "gather/mapping/mapping.hpp"
#include "gather/propose/propose.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::gather;
using namespace wayfolio::gather::testing;
using Catch::Matchers::Contains;

namespace {

Proposal proposal_of(const std::string& text, const std::vector<std::pair<std::size_t, std::string>>& roles = {}) {
    Given given;
    for (const auto& [column, role] : roles) given.roles.push_back({"x.csv", "", column, role});
    return propose(exports_of({{"x.csv", text}}), given);
}

std::vector<std::string> taken_for(const Proposal& proposal) {
    std::vector<std::string> words;
    for (const ColumnSeen& column : proposal.exports.at(0).columns) words.push_back(column.becomes);
    return words;
}

const std::pair<std::string, std::string> sign{R"("sign": "?")", R"("sign": "actual-minus-target")"},
    error{R"("error": "?")", R"("error": "ECC")"};

/// Two columns of positions, degrees, a column of signs, a head of two lines with its units below, and rows that end in empty cells.
const std::string awkward =
    "Invented data;;;;;\n;;;;;\nAngle;Encoder;Sense;Cycle;Pitch;Remark\n\u00b0;\u00b0;-;-;arcsec;\n0;0.1;+;1;;\n90;90.2;+;1;1.5;\n"
    "90;90.1;-;1;0.5;\n0;0.3;-;1;0.25;door\n";

}  // namespace

TEST_CASE("what a head of two lines, degrees, signs and empty cells say is seen, and the rest is given by hand") {
    const Proposal seen = proposal_of(awkward);
    CHECK(seen.exports.at(0).columns.at(0).head == "Angle [\u00b0]");
    CHECK(seen.exports.at(0).columns.at(2).head == "Sense");
    CHECK(seen.exports.at(0).columns.at(0).first == std::vector<std::string>{"0", "90", "90"});
    CHECK(taken_for(seen) == std::vector<std::string>{"readings, error open, in deg", "readings, error open, in deg", "is not read", "run",
                                                      "readings, error open, in arcsec", "mark of readings set aside"});
    const Proposal said = proposal_of(awkward, {{1, "position"}, {2, "nothing"}, {3, "approach"}});
    CHECK_THAT(said.mapping, Contains(R"("first_row": 5)") && Contains(R"("position_unit": "deg")") && Contains(R"("positive": ["+"])"));
    const std::string whole = filled(said.mapping, {error, sign, {R"("reasons": "?")", R"("reasons": {"door": "door opened"})"}});
    CHECK(words_of(whole, {{"x.csv", awkward}}) == "0 90 | + _ 1.5 | - 0.25 0.5 (0: door opened)");
}

TEST_CASE("of what an export has only one of, one column is taken, and the other is not told as taken, too") {
    const std::string two = "Target [mm];Position [mm];Dir;Run;EXX [um]\n0;0;+;1;0.5\n5;5;+;1;1.5\n";
    const std::string other = "is not read: another column is taken for that";
    CHECK(taken_for(proposal_of(two)) == std::vector<std::string>{"target position", other, "approach", "run", "readings, of EXX, in um"});
    const Proposal said = proposal_of(two, {{2, "position"}});
    CHECK(taken_for(said) == std::vector<std::string>{other, "target position", "approach", "run", "readings, of EXX, in um"});
    CHECK_THAT(said.mapping, Contains(R"("position": {"column": "Position [mm]"})"));
    CHECK_THROWS_AS(proposal_of(two, {{1, "position"}, {2, "position"}}), input::InputRejected);
    CHECK_THROWS_AS(proposal_of(two, {{6, "position"}}), input::InputRejected);
    CHECK_THROWS_AS(proposal_of(two, {{1, "place"}}), input::InputRejected);
    CHECK_THROWS_AS(propose(exports_of({{"x.csv", two}}), {.roles = {{"y.csv", "", 1, "run"}}}), input::InputRejected);
}

TEST_CASE("how a text is read is told, and where it was seen wrong it is said by hand") {
    // Commas stand between as many cells that look like numbers as semicolons do.
    const std::string text = "Target [mm];Dir;EXX [um]\n0;+;1,234\n250;+;2,345\n0;-;0,125\n250;-;1,5\n";
    const Proposal seen = proposal_of(text);
    const ReadAs& read = seen.exports.at(0).read_as.value();
    CHECK(read.encoding == Encoding::Utf8);
    CHECK(read.delimiter == ';');
    CHECK(read.decimal_mark == ',');
    CHECK(seen.exports.at(0).first_row == 2);
    CHECK_FALSE(seen.exports.at(0).decimal_open);

    const std::string either = "Target [mm];Dir;EXX [um]\n0;+;1,234\n250;+;2,345\n";
    CHECK(proposal_of(either).exports.at(0).decimal_open);
    CHECK_THAT(proposal_of(either).mapping, Contains(R"("decimal_mark": "?")"));
    const auto said = [&](const std::string& bytes, const ReadAs& how) {
        return propose(exports_of({{"x-1.csv", bytes}, {"x-2.csv", bytes}}), {.read_as = {{"x-*.csv", how}}});
    };
    CHECK_THAT(said(either, {.decimal_mark = ','}).mapping, Contains(R"("decimal_mark": ",")") && !Contains(R"("decimal_mark": "?")"));
    CHECK_THAT(said(either, {.decimal_mark = '.'}).mapping, !Contains("decimal_mark"));
    CHECK_THAT(said(text, {.encoding = Encoding::Latin1}).mapping, Contains(R"("encoding": "latin-1")"));
    CHECK(said(text, {.delimiter = ','}).exports.at(0).columns.size() == 2);
    CHECK_THROWS_AS(said(text, {.delimiter = '|'}), input::InputRejected);  // no columns
    CHECK_THROWS_AS(propose(exports_of({{"x.csv", text}}), {.read_as = {{"y.csv", {}}}}), input::InputRejected);
}

TEST_CASE("heads that stand twice are told apart by their numbers") {
    const std::string twice = "Position;Position;Dir;Run;Value\n0;0.0;+;1;0.5\n5;5.1;+;1;1.5\n";
    const Proposal said = proposal_of(twice, {{1, "position"}, {2, "actual"}, {5, "nothing"}});
    const std::string whole = filled(said.mapping, {{R"("error": "?")", R"("error": "EXX")"},
                                                    {R"("unit": "?")", R"("unit": "um")"},
                                                    {R"("position_unit": "?")", R"("position_unit": "mm")"},
                                                    sign,
                                                    {R"("negative": ["?"])", R"("negative": ["-"])"}});
    CHECK(words_of(whole, {{"x.csv", twice}}) == "0 5 | + 0 100");
}

TEST_CASE("columns that are said to be runs of an approach become the runs of one series") {
    const std::string text = "Target [mm];First [um];Second [um];Third [um]\n0;0.1;-0.5;0.7\n250;2.4;0.7;2.8\n";
    const Proposal said = proposal_of(text, {{2, "run-positive"}, {3, "run-negative"}, {4, "run-positive"}});
    CHECK(taken_for(said).at(2) == "a run, negative approach, error open, in um");
    const std::string whole = filled(said.mapping, {{R"("error": "?")", R"("error": "EXX")"}, sign});
    CHECK(words_of(whole, {{"x.csv", text}}) == "0 250 | + 0.1 2.4 | + 0.7 2.8 | - -0.5 0.7");
    const std::string others = "Target [mm];EXX [um];EYX [um]\n0;0.1;-0.5\n250;2.4;0.7\n";
    CHECK_THAT(proposal_of(others, {{2, "run-positive"}, {3, "run-positive"}}).mapping, Contains("x-exx") && Contains("x-eyx"));
}

TEST_CASE("a run that is something else leaves the others of its kind as they are") {
    const std::string text = "Target [mm];Run 1 [um];Run 2 [um];Run 3 [um]\n0;0.1;9;0.7\n250;2.4;9;2.8\n";
    CHECK_THAT(proposal_of(text, {{3, "nothing"}}).mapping, Contains(R"("columns": ["Run 1 [um]", "Run 3 [um]"])"));
    CHECK_THAT(proposal_of(text, {{3, "nothing"}, {4, "nothing"}}).mapping,
               Contains(R"("column": "Run 1 [um]")") && Contains(R"("run": "?")"));
}

TEST_CASE("a unit that readings or surroundings do not have stays open") {
    CHECK_THAT(proposal_of("Target [mm];Run;Load [%]\n0;1;0.5\n5;1;1.5\n", {{3, "deviation"}}).mapping, Contains(R"("unit": "?")"));
    CHECK_THAT(proposal_of("Time;Load [%];Air [mm]\n2026-05-11T08:10;0.5;20\n2026-05-11T08:20;1.5;20\n", {{2, "humidity_percent"}}).mapping,
               Contains(R"("humidity_percent": {"column": "Load [%]", "unit": "percent"})") &&
                   Contains(R"("air_C": {"column": "Air [mm]", "unit": "?"})"));
}

TEST_CASE("a first reading that is missing makes no head of its row, and lines that tell of a run no table") {
    CHECK(proposal_of("Target;Run;EXX\n0;1;\n5;1;0.3\n").exports.at(0).columns.at(2).head == "EXX");
    const Proposal told = proposal_of("Run;1;;\nOrder;7;;\nTarget;Dir;EXX;\n0;+;0.1;\n5;+;0.3;\n");
    CHECK(told.exports.at(0).columns.at(2).head == "EXX");
    CHECK_THAT(told.mapping, Contains(R"("run": {"above": "Run"})"));
    CHECK_THAT(proposal_of("Run;0;250\n1;0.1;0.2\n2;0.3;0.4\n").mapping, Contains(R"("are": "targets")"));
}

TEST_CASE("surroundings without times leave their times open") {
    const std::string log = "Hour;Air [C]\n8.5;20.1\n8.75;20.2\n";
    CHECK_THAT(proposal_of(log, {{1, "nothing"}}).mapping, Contains(R"("time": "?")"));
    CHECK_THAT(proposal_of(log, {{1, "time"}}).mapping, Contains(R"("time": {"column": "Hour")"));
}

TEST_CASE("a name that goes on over several columns stands before what tells them apart below") {
    const std::string text = "Target;Deviation;\n;forward [um];backward [um]\n0;0.1;-0.5\n250;2.4;0.7\n";
    const Proposal seen = proposal_of(text);
    CHECK(seen.exports.at(0).columns.at(1).head == "Deviation forward [um]");
    CHECK(seen.exports.at(0).columns.at(2).head == "Deviation backward [um]");
    const Proposal said = proposal_of(text, {{2, "run-positive"}, {3, "run-negative"}});
    const std::string whole =
        filled(said.mapping, {{R"("error": "?")", R"("error": "EXX")"}, {R"("position_unit": "?")", R"("position_unit": "mm")"}, sign});
    CHECK(words_of(whole, {{"x.csv", text}}) == "0 250 | + 0.1 2.4 | - -0.5 0.7");
    const std::string told = "Direction;forward;\nTarget;;EXX [um]\n0;9;0.1\n5;9;0.3\n";
    CHECK(proposal_of(told).exports.at(0).columns.at(2).head == "EXX [um]");
}
