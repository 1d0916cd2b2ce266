#include "report/words/verdicts.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using units::micrometre;

namespace {

evaluate::Decision decision(double value, double U, double limit, evaluate::Outcome outcome,
                            document::DecisionRule rule = document::DecisionRule::GuardBandBothSides) {
    evaluate::Decision made{.series = "s",
                            .parameter = "A",
                            .limit = micrometre(limit),
                            .unit = micrometre,
                            .value = micrometre(value),
                            .rule = rule,
                            .outcome = outcome};
    if (U > 0) made.expanded = micrometre(U);
    return made;
}

}  // namespace

TEST_CASE("the printed margin closes on the page: limit less printed value less printed U") {
    // 29.14 and 7.48 are printed 29.1 and 7.5; 40 - 29.1 - 7.5 = 3.4, where the unrounded 3.38 would print alike only by luck.
    const auto inside = decision(29.14, 7.48, 40, evaluate::Outcome::Pass);
    const auto verdict = report::verdict_of(&inside, {});
    CHECK(verdict.margin.words() == "3.4\u202fµm to spare after\u00a0U");
    CHECK(verdict.word.words() == "Inside");
}

TEST_CASE("a value past its limit says by how much, and how far beyond U") {
    const auto past = decision(41.1, 4.1, 30, evaluate::Outcome::Fail);
    CHECK(report::verdict_of(&past, {}).margin.words() == "11.1\u202fµm over, 7.0 beyond\u00a0U");
    CHECK(report::verdict_of(&past, {}).symbol == report::VerdictSymbol::Outside);
}

TEST_CASE("rounding never turns the sign of a margin: one more digit is printed instead") {
    const auto close = decision(29.96, 0, 30, evaluate::Outcome::Pass, document::DecisionRule::Simple);
    CHECK(report::verdict_of(&close, {}).margin.words() == "0.04\u202fµm to spare");
}

TEST_CASE("every verdict other than Inside is strong") {
    const auto undecided = decision(60.7, 2.3, 60, evaluate::Outcome::Undecided);
    CHECK(report::verdict_of(&undecided, {}).word.spans()[0].emphasis == report::Emphasis::Strong);
    const auto inside = decision(1, 0.1, 60, evaluate::Outcome::Pass);
    CHECK(report::verdict_of(&inside, {}).word.spans()[0].emphasis == report::Emphasis::Plain);
}

TEST_CASE("without a limit there is no symbol, only words") {
    const auto verdict = report::verdict_of(nullptr, {});
    CHECK(verdict.symbol == report::VerdictSymbol::None);
    CHECK(verdict.word.words() == "no limit set");
}

TEST_CASE("a rule that needs U says what it lacks") {
    auto open = decision(20, 0, 25, evaluate::Outcome::NotDecided);
    open.reason = "the rule needs an uncertainty";
    CHECK(report::verdict_of(&open, {}).word.words() == "Undetermined: no U");
    CHECK(report::verdict_of(&open, {}).symbol == report::VerdictSymbol::NotEvaluated);
}

TEST_CASE("a signed result is set against its limit by its size") {
    const auto reversal = decision(-1.7, 0, 3, evaluate::Outcome::Pass, document::DecisionRule::Simple);
    CHECK(report::verdict_of(&reversal, {}).margin.words() == "1.3\u202fµm to spare");
}
