#include "gather/gathering.hpp"

#include <catch2/catch.hpp>

/// Of many regular runs one stands for all when the document is read back: what is wrong with any of them must still be found, where it
/// stands.
using namespace wayfolio::gather;
using namespace wayfolio::gather::testing;

namespace {

/// Rows of so many targets and runs, positive and negative in turn; `other` may say what is written for a target and a run.
std::string many_rows(int targets, int runs, const std::function<std::string(int target, int run)>& other = {}) {
    std::string text = "Target,Dir,Run,Dev\n";
    for (int run = 0; run < runs; ++run)
        for (int target = 0; target < targets; ++target) {
            std::string value = other ? other(target, run) : "";
            if (value.empty()) value = fmt::format("{}.25", (7 * target + run) % 11);
            text += fmt::format("{},{},{},{}\n", 10 * target, run % 2 == 0 ? '+' : '-', run / 2 + 1, value);
        }
    return text;
}

std::string faults_in_rows(const std::string& text) { return words_of(mapping_of(rows), {{"x.csv", text}}); }

}  // namespace

TEST_CASE("A reading that no document takes is found in any of many runs, at its row") {
    for (const int run : {0, 1, 30, 59}) {
        const std::string text = many_rows(20, 60, [&](int target, int at) { return target == 7 && at == run ? "2000000" : ""; });
        CHECK(faults_in_rows(text) ==
              fmt::format("x.csv:{}:1: found 2000000; expected a deviation in um, of at most 1 000 000 in size (1 m) "
                          "(a reading is the deviation, actual less target, not the position that was read)",
                          20 * run + 7 + 2));
    }
}

TEST_CASE("A reading of more letters than a number may have is found in any of many runs") {
    for (const int run : {3, 58}) {
        const std::string text = many_rows(20, 60, [&](int target, int at) { return target == 19 && at == run ? "1e-35" : ""; });
        CHECK_THAT(faults_in_rows(text), Catch::Matchers::StartsWith(fmt::format("x.csv:{}:1: found ", 20 * run + 19 + 2)));
    }
}

TEST_CASE("Many runs are gathered into a document that can be read, with all their readings") {
    const Gathered made = gathered(mapping_of(rows), {{"x.csv", many_rows(150, 1000)}});
    const auto alone = [](const std::string& name) -> std::string { throw wayfolio::input::InputMissing(name, "is not beside it"); };
    const auto document = wayfolio::document::read_document(made.document, "d.json", alone);
    REQUIRE(document.series.at(0).runs.size() == 1000);
    bool same = true;
    for (int run = 0; run < 1000; ++run)
        for (int target = 0; target < 150; ++target) {
            const auto& read = document.series[0].runs[static_cast<std::size_t>(run)].deviations[static_cast<std::size_t>(target)];
            same = same && read.has_value() && read->in(wayfolio::units::micrometre) == (7 * target + run) % 11 + 0.25;
        }
    CHECK(same);
}

TEST_CASE("More runs than a document takes are told, however they are read back") {
    CHECK_THAT(faults_in_rows(many_rows(150, 1001)),
               Catch::Matchers::EndsWith("/series/0/runs: found an array of 1001; expected at most 1000"));
}

TEST_CASE("More readings than a document may have values are told") {
    CHECK_THAT(faults_in_rows(many_rows(3100, 970)), Catch::Matchers::Contains("values in one document; expected at most 3000000"));
}
