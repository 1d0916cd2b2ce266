#include "catalogue/history_words.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio::catalogue;

namespace {

/// A line whose visits found these values, one each May from 2021 on.
HistoryLine line(const std::string& error, const std::string& parameter, const std::vector<double>& values) {
    HistoryLine made{.error = error, .parameter = parameter, .axis = "X", .reference_line = "", .unit = "um", .series = "",
                     .vertical = "", .points = {}, .drift = wayfolio::evaluate::NotEvaluated{"not judged"}, .warnings = {}, .notes = {}};
    for (std::size_t i = 0; i < values.size(); ++i) {
        const std::string day = std::to_string(2021 + i) + "-05-17";
        made.points.push_back({.day = day, .state = "as-found", .series = "s", .job = day, .folder = day, .revision = 0,
                               .value = values[i], .expanded = 0.5, .limit = 12, .outcome = "", .reason = "", .apart = "",
                               .low = 0, .high = 500});
    }
    judge(made);
    return made;
}

std::string lead(const std::vector<HistoryLine>& lines) {
    std::vector<const HistoryLine*> drawn;
    for (const HistoryLine& one : lines) drawn.push_back(&one);
    return lead_of(drawn).words();
}

const std::vector<double> growing{1.0, 2.1, 2.9, 4.0}, falling{4.0, 3.1, 1.9, 1.0}, level{2.0, 2.3, 1.9, 2.2};

}  // namespace

TEST_CASE("a history says first which values grew, which fell, and which show no slope") {
    CHECK(lead({line("EXX", "A", growing), line("EXX", "R", level), line("EXX", "E", growing)}) ==
          "A and E of EXX grew; R of EXX shows no slope beyond its\u00a0U from 2021-05 to 2024-05.");
    CHECK(lead({line("EAX", "angle", growing), line("EXX", "B", falling)}) == "Roll EAX grew; B of EXX fell from 2021-05 to 2024-05.");
    CHECK(lead({line("EXX", "A", level), line("EXX", "E", level)}) ==
          "A and E of EXX show no slope beyond their\u00a0U from 2021-05 to 2024-05.");
}

TEST_CASE("what has a sign is said to have changed: it may grow in size while it falls") {
    CHECK(lead({line("EXX", "B_mean", {-1.0, -2.1, -2.9, -4.0})}) == "Positioning EXX B mean changed from 2021-05 to 2024-05.");
}

TEST_CASE("a history says nothing of lines with too few values that can be compared") {
    CHECK(lead({}).empty());
    CHECK(lead({line("EXX", "A", {1.0, 4.0})}).empty());
    HistoryLine other_travel = line("EXX", "A", growing);
    for (std::size_t i = 0; i < 2; ++i) other_travel.points[i].high = 300;
    judge(other_travel);
    CHECK(lead({other_travel}).empty());
    CHECK(lead({line("EXX", "A", {1.0, 4.0}), line("EXX", "E", growing)}) == "E of EXX grew from 2021-05 to 2024-05.");
}

TEST_CASE("lines over other years, and more than can be named, are said so") {
    CHECK(lead({line("EXX", "A", growing), line("EXX", "E", {1.0, 2.0, 3.01})}) ==
          "A and E of EXX grew, each over the visits that its panel names.");
    std::vector<HistoryLine> many;
    for (const char* error : {"EXX", "EYY", "EZZ", "EAX", "EBX", "ECX"}) many.push_back(line(error, "A", growing));
    many.push_back(line("EXX", "R", level));
    CHECK(lead(many) == "Six values grew; one value shows no slope beyond its\u00a0U from 2021-05 to 2024-05.");
}
