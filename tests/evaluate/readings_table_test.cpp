#include "evaluate/evaluation.hpp"
#include "evaluate/written/readings_table.hpp"
#include "support/documents.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;

namespace {

std::string table_of(const document::Series& series) {
    const document::Document document = support::document(series);
    return evaluate::readings_table(series, evaluate::evaluate(document).series.front());
}

std::string line_of_table(const std::string& table, std::size_t number) {
    std::size_t start = 0;
    for (; number > 0; --number) start = table.find("\r\n", start) + 2;
    return table.substr(start, table.find("\r\n", start) - start);
}

}  // namespace

TEST_CASE("the table has one row for each target and approach, in rising position, with readings and statistics") {
    // mean 2, s = sqrt(2), R = 4 s of the readings 1 and 3
    const std::string table = table_of(support::series("EXX", {250, 0}, {{1, 0}, {3, 0}}, {{0, 0.5}, {0, 0.5}}));
    CHECK(line_of_table(table, 0) ==
          "series,error,state,target,position,position_unit,approach,unit,n,mean,s,R,mean_both,reversal,R_both,reading_unit,"
          "reading_1,reading_2,excluded");
    CHECK(line_of_table(table, 1) == "s,EXX,,1,0,mm,positive,um,2,0,0,0,0.25,-0.5,0.5,um,0,0,");
    CHECK(line_of_table(table, 2) == "s,EXX,,1,0,mm,negative,um,2,0.5,0,0,0.25,-0.5,0.5,um,0.5,0.5,");
    CHECK(line_of_table(table, 3).starts_with("s,EXX,,2,250,mm,positive,um,2,2,1.4142135623730951,5.656854249492381,1,2,"));
    CHECK(line_of_table(table, 5).empty());
    CHECK(line_of_table(table, 6) == "parameter,value,unit,set_by,stated,not_evaluated");
    CHECK(table.find("\r\nM,0.75,um,max 250; min 0,,\r\n") != std::string::npos);
}

TEST_CASE("a missing and an excluded reading are empty cells, and the exclusion is told with value and reason") {
    document::Series series = support::series("EXX", {0, 250}, {{1, 2}, {support::missing, 4}, {5, 6}}, {});
    series.runs[2].excluded.push_back({0, "beam, interrupted"});
    const std::string table = table_of(series);
    CHECK(line_of_table(table, 1).starts_with("s,EXX,,1,0,mm,positive,um,1,1,,"));
    CHECK(line_of_table(table, 1).ends_with(",um,1,,,\"reading 3 (5): beam, interrupted\""));
    CHECK(line_of_table(table, 2).ends_with(",negative,um,0,,,,,,,um,,,,"));
}

TEST_CASE("a parameter that is not evaluated has an empty value and its reason") {
    const std::string table = table_of(support::series("EXX", {0, 250}, {{1, 2}}, {{1, 2}}));
    const std::size_t at = table.find("\r\nA,,um,,,");
    REQUIRE(at != std::string::npos);
    CHECK(table.find("one", at) < table.find("\r\n", at + 2));
}

TEST_CASE("a text that a spreadsheet would run as a formula gets an apostrophe") {
    document::Series series = support::series("EXX", {0, 250}, {{1, 2}}, {{1, 2}});
    series.id = "=1+1";
    CHECK(line_of_table(table_of(series), 1).starts_with("'=1+1,EXX,"));
}

TEST_CASE("the reading of an angle step stands at its farther station") {
    document::Series series = support::series("EZX", {0, 100, 200}, {{support::missing, 10, 20}}, {}, units::microradian);
    series.steps_base_mm = 100;
    const std::string table = table_of(series);
    CHECK(line_of_table(table, 1).find(",urad,,") != std::string::npos);
    CHECK(line_of_table(table, 3).find(",urad,10,") != std::string::npos);
    CHECK(line_of_table(table, 5).find(",urad,20,") != std::string::npos);
}
