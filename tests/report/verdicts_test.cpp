#include "report/words/verdicts.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using report::Standing;
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
    CHECK(report::verdict_of(&past, {}).standing == Standing::Outside);
}

TEST_CASE("rounding never turns the sign of a margin: one more digit is printed instead") {
    const auto close = decision(29.96, 0, 30, evaluate::Outcome::Pass, document::DecisionRule::Simple);
    CHECK(report::verdict_of(&close, {}).margin.words() == "0.04\u202fµm to spare, no\u00a0U stated");
}

TEST_CASE("each outcome has one standing, one word, one phrase and one sentence") {
    using document::DecisionRule;
    using evaluate::Outcome;
    struct Said {
        evaluate::Decision decision;
        Standing standing;
        std::string word, head, margin, sentence;
    };
    const std::vector<Said> all{
        {decision(26.9, 7.6, 40, Outcome::Pass), Standing::Inside, "Inside", "Inside", "5.5\u202fµm to spare after\u00a0U",
         "Value is inside its limit of 40\u202fµm, with 5.5\u202fµm to spare after\u00a0U."},
        {decision(12.44, 0.83, 13, Outcome::ConditionalPass, DecisionRule::NonBinary), Standing::InsideByLess, "Inside by less than\u00a0U",
         "Inside", "by less than\u00a0U: 0.56\u202fµm under",
         "Value is inside its limit of 13\u202fµm by less than\u00a0U: 0.56\u202fµm under."},
        {decision(12.44, 0.83, 13, Outcome::Undecided), Standing::Undecided, "Undecided", "Undecided",
         "0.56\u202fµm under, less than\u00a0U", "Value is undecided: 0.56\u202fµm under its limit of 13\u202fµm, less than\u00a0U."},
        {decision(60.6, 2.2, 60, Outcome::Undecided), Standing::Undecided, "Undecided", "Undecided", "0.6\u202fµm over, less than\u00a0U",
         "Value is undecided: 0.6\u202fµm over its limit of 60\u202fµm, less than\u00a0U."},
        {decision(60.6, 2.2, 60, Outcome::ConditionalFail, DecisionRule::NonBinary), Standing::OutsideByLess, "Outside by less than\u00a0U",
         "Outside", "by less than\u00a0U: 0.6\u202fµm over",
         "Value is outside its limit of 60\u202fµm by less than\u00a0U: 0.6\u202fµm over."},
        {decision(2.62, 0.6, 3, Outcome::Fail, DecisionRule::GuardBand), Standing::NotAccepted, "Not accepted", "Not accepted",
         "0.38\u202fµm under, less than\u00a0U", "Value is not accepted: 0.38\u202fµm under its limit of 3\u202fµm, less than\u00a0U."},
        {decision(39, 4.1, 30, Outcome::Fail), Standing::Outside, "Outside", "Outside", "9.0\u202fµm over, 4.9 beyond\u00a0U",
         "Value is outside its limit of 30\u202fµm: 9.0\u202fµm over, 4.9 beyond\u00a0U."}};
    for (const Said& said : all) {
        const auto verdict = report::verdict_of(&said.decision, {});
        CHECK(verdict.standing == said.standing);
        CHECK(verdict.word.words() == said.word);
        CHECK(verdict.head.words() == said.head);
        CHECK(verdict.margin.words() == said.margin);
        CHECK(report::verdict_sentence("Value", said.decision, {}).words() == said.sentence);
        // The word of listings and of the evaluation is that of the pages, but for its hard space.
        std::string word = said.word;
        if (const auto hard = word.find("\u00a0"); hard != std::string::npos) word.replace(hard, 2, " ");
        CHECK(evaluate::word(said.standing) == word);
    }
}

TEST_CASE("never outside is said of a value that keeps its limit, whatever the rule") {
    for (const auto rule : {document::DecisionRule::Simple, document::DecisionRule::GuardBand, document::DecisionRule::GuardBandBothSides,
                            document::DecisionRule::Iso14253_1, document::DecisionRule::NonBinary})
        for (const auto outcome : {evaluate::Outcome::Pass, evaluate::Outcome::Fail, evaluate::Outcome::ConditionalPass,
                                   evaluate::Outcome::Undecided, evaluate::Outcome::NotDecided}) {
            const auto under = decision(29.9, 1, 30, outcome, rule);
            CHECK_FALSE(report::verdict_of(&under, {}).word.words().starts_with("Outside"));
            CHECK(report::verdict_sentence("V", under, {}).words().find("outside") == std::string::npos);
        }
}

TEST_CASE("what is left to spare is what the rule keeps: 1.65 u, not U, by ISO 14253-1") {
    // 30 - 28.2 - 1.65 = 0.15; less U = 2 it would be 0.2 short, which must not be printed as if it were to spare.
    auto close = decision(28.2, 2, 30, evaluate::Outcome::Pass, document::DecisionRule::Iso14253_1);
    close.guard = micrometre(1.65);
    CHECK(report::verdict_of(&close, {}).margin.words() == "0.2\u202fµm to spare after\u00a01.65\u202fu");
}

TEST_CASE("over the limit by more than U, but by less than U and scatter: both are named, and U alone is not said to cover it") {
    auto over = decision(33, 2, 30, evaluate::Outcome::Undecided);
    over.guard = micrometre(2);
    over.guard_below = micrometre(4);
    CHECK(report::verdict_of(&over, {}).margin.words() == "3.0\u202fµm over, less than\u00a0U and bias");
    CHECK(report::verdict_of(&over, {}).explanation.at(0).words().find("includes") == std::string::npos);
    over.outcome = evaluate::Outcome::ConditionalFail;
    over.rule = document::DecisionRule::NonBinary;
    CHECK(report::verdict_of(&over, {}).word.words() == "Outside by less than\u00a0U and bias");
}

TEST_CASE("a value on its limit is on it, not 0.0 under or over it") {
    const auto on = decision(30, 2, 30, evaluate::Outcome::Undecided);
    CHECK(report::verdict_of(&on, {}).margin.words() == "on its limit");
    CHECK(report::verdict_sentence("Value", on, {}).words() == "Value is undecided: on its limit of 30\u202fµm.");
}

TEST_CASE("words for what is not shown to be inside are strong") {
    const auto undecided = decision(60.7, 2.3, 60, evaluate::Outcome::Undecided);
    CHECK(report::verdict_of(&undecided, {}).word.spans()[0].emphasis == report::Emphasis::Strong);
    const auto inside = decision(1, 0.1, 60, evaluate::Outcome::Pass);
    CHECK(report::verdict_of(&inside, {}).word.spans()[0].emphasis == report::Emphasis::Plain);
}

TEST_CASE("without a limit there is no symbol, only words") {
    const auto verdict = report::verdict_of(nullptr, {});
    CHECK(verdict.standing == Standing::NoLimit);
    CHECK(verdict.word.words() == "no limit set");
}

TEST_CASE("a rule that needs U says what it lacks") {
    auto open = decision(20, 0, 25, evaluate::Outcome::NotDecided);
    open.reason = "the rule needs an uncertainty";
    CHECK(report::verdict_of(&open, {}).word.words() == "Not evaluated");
    CHECK(report::verdict_of(&open, {}).margin.words() == "no U stated; the rule needs it");
    CHECK(report::verdict_of(&open, {}).standing == Standing::NotEvaluated);
}

TEST_CASE("a signed result is set against its limit by its size") {
    const auto reversal = decision(-1.7, 0, 3, evaluate::Outcome::Pass, document::DecisionRule::Simple);
    CHECK(report::verdict_of(&reversal, {}).margin.words() == "1.3\u202fµm to spare, no\u00a0U stated");
}
