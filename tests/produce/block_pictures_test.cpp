#include "produce/comparison.hpp"
#include "support/pictures.hpp"
#include "support/small_documents.hpp"

#include <catch2/catch.hpp>

namespace wayfolio::testing {

namespace {

/// The pages of one kind of block of one document, and the reference that holds them.
struct BlockPicture {
    std::string reference;
    nlohmann::json document;
    std::string block;
    Figures figures = Figures::HeadLines;
};

void check_blocks(const std::vector<BlockPicture>& pictures) {
    for (const BlockPicture& picture : pictures) {
        const auto pages = DrawnDocument(picture.document).pages(picture.block);
        for (const frame::Frame& page : pages) CHECK(page_faults(page) == Findings{});
        check_golden(picture.reference, dump_of(pages, picture.figures));
    }
}

/// The answer and the picture of the rule, where a limit of `limit` µm is judged.
void check_judged(const std::string& answer, const std::string& decision, const nlohmann::json& document) {
    check_golden(answer, dump_of(DrawnDocument(document).pages("answer"), Figures::HeadLines));
    if (!decision.empty()) check_golden(decision, dump_of_figures(DrawnDocument(document).pages("uncertainty"), "decision"));
}

}  // namespace

TEST_CASE("a positioning opening is drawn as it was, with its strips and in every state of its series", "[pictures]") {
    check_blocks({{"blocks/opening.txt", small::one_run_each_way(), "openings", Figures::Whole},
                  {"blocks/opening-limit.txt", small::positioning(), "openings"},
                  {"blocks/opening-positive-only.txt", small::without_approach(small::positioning(), "negative"), "openings"},
                  {"blocks/opening-gaps.txt", small::missing_and_excluded(), "openings"},
                  {"blocks/opening-inches.txt", small::inches(), "openings"},
                  {"blocks/opening-rotary.txt", small::turn(), "openings"},
                  {"blocks/opening-stated.txt", small::stated_only(), "openings"}});
}

TEST_CASE("an answer is drawn as it was, with gauges, curves and symbols", "[pictures]") {
    check_blocks({{"blocks/answer.txt", small::tool_point(), "answer"},
                  {"blocks/answer-no-limit.txt", small::document(small::list(small::x_series())), "answer"},
                  {"blocks/answer-one-run.txt", small::one_run_each_way(), "answer"},
                  {"blocks/answer-inches.txt", small::inches(), "answer"},
                  {"blocks/answer-stated.txt", small::stated_only(), "answer"}});
}

TEST_CASE("panels of straightness and angles are drawn as they were", "[pictures]") {
    check_blocks({{"blocks/straightness.txt", small::straightness(), "straightness", Figures::Whole},
                  {"blocks/angles.txt", small::angle(), "angles", Figures::Whole},
                  {"blocks/angle-steps.txt", small::angle_steps(), "straightness"},
                  {"blocks/tool-point.txt", small::tool_point(), "tool-point"}});
}

TEST_CASE("pages round the circle and of two axes are drawn as they were", "[pictures]") {
    check_blocks({{"blocks/polar.txt", small::turn(), "polar"},
                  {"blocks/polar-half.txt", small::half_turn(), "polar"},
                  {"blocks/squareness.txt", small::squareness(30), "squareness"}});
}

TEST_CASE("as found beside as left is drawn as it was", "[pictures]") {
    check_blocks({{"blocks/states.txt", small::found_and_left(), "states", Figures::Whole}});
}

TEST_CASE("compensation tables are drawn as they were, with what they predict, in one direction, and refused", "[pictures]") {
    check_blocks({{"blocks/compensation.txt", small::compensated("bidirectional"), "compensation"},
                  {"blocks/compensation-positive.txt", small::compensated("positive"), "compensation"},
                  {"blocks/compensation-refused.txt", small::without_approach(small::compensated("bidirectional"), "negative"),
                   "compensation"}});
    check_golden("figures/compensation.txt",
                 dump_of_figures(DrawnDocument(small::compensated("bidirectional")).pages("compensation"), "predicted-x"));
}

TEST_CASE("budgets, surroundings, readings and plain sections are drawn as they were", "[pictures]") {
    check_blocks({{"blocks/environment.txt", small::surroundings(), "environment"},
                  {"blocks/uncertainty.txt", small::judged("guard-band", 9), "uncertainty"},
                  {"blocks/readings.txt", small::missing_and_excluded(), "readings"},
                  {"blocks/readings-one-direction.txt", small::without_approach(small::straightness(), "negative"), "readings"},
                  {"blocks/readings-many-runs.txt", small::many_runs(), "readings"},
                  {"blocks/readings-inches.txt", small::inches(), "readings"},
                  {"blocks/conditions.txt", small::positioning(), "conditions"},
                  {"blocks/measurement-lines.txt", small::upright_tool_point(), "measurement-lines", Figures::Whole},
                  {"blocks/hints.txt", small::positioning(), "hints"},
                  {"blocks/facts.txt", small::surroundings(), "facts"},
                  {"blocks/remarks.txt", small::positioning(), "remarks"}});
    const auto closing = DrawnDocument(small::positioning()).pages("closing");
    REQUIRE(closing.size() == 1);
    check_golden("blocks/closing.txt", dump_of(closing, Figures::HeadLines));
}

TEST_CASE("every outcome of every rule is drawn as it was, on the answer and as a picture of the rule", "[pictures]") {
    check_judged("rules/simple-pass.answer.txt", "rules/simple-pass.txt", small::judged("simple", 9));
    check_judged("rules/simple-fail.answer.txt", "rules/simple-fail.txt", small::judged("simple", 6.2));
    check_judged("rules/guard-band-pass.answer.txt", "rules/guard-band-pass.txt", small::judged("guard-band", 9));
    check_judged("rules/guard-band-fail-short-of-limit.answer.txt", "rules/guard-band-fail-short-of-limit.txt",
                 small::judged("guard-band", 7));
    check_judged("rules/guard-band-fail.answer.txt", "rules/guard-band-fail.txt", small::judged("guard-band", 5));
    check_judged("rules/both-sides-pass.answer.txt", "rules/both-sides-pass.txt", small::judged("guard-band-both-sides", 9));
    check_judged("rules/both-sides-undecided.answer.txt", "rules/both-sides-undecided.txt",
                 small::judged("guard-band-both-sides", 6.2));
    check_judged("rules/both-sides-fail.answer.txt", "rules/both-sides-fail.txt", small::judged("guard-band-both-sides", 5));
    check_judged("rules/iso-pass.answer.txt", "rules/iso-pass.txt", small::judged("iso-14253-1", 9));
    check_judged("rules/iso-undecided.answer.txt", "rules/iso-undecided.txt", small::judged("iso-14253-1", 6.2));
    check_judged("rules/iso-fail.answer.txt", "rules/iso-fail.txt", small::judged("iso-14253-1", 5));
    check_judged("rules/non-binary-pass.answer.txt", "rules/non-binary-pass.txt", small::judged("non-binary", 9));
    check_judged("rules/non-binary-conditional-pass.answer.txt", "rules/non-binary-conditional-pass.txt",
                 small::judged("non-binary", 7));
    check_judged("rules/non-binary-conditional-fail.answer.txt", "rules/non-binary-conditional-fail.txt",
                 small::judged("non-binary", 6.2));
    check_judged("rules/non-binary-fail.answer.txt", "rules/non-binary-fail.txt", small::judged("non-binary", 5));
    check_judged("rules/no-uncertainty.answer.txt", "", small::judged("guard-band", 9, 0));
    check_judged("rules/far-past-limit.answer.txt", "", small::judged("guard-band", 3));
}

TEST_CASE("a comparison of two documents is drawn as it was", "[pictures]") {
    nlohmann::json later = small::positioning();
    later["series"][0]["runs"][0]["deviations"][2] = 7.5;
    later["series"][0]["tolerances"][0]["limit"] = 8;
    const DrawnDocument was(small::positioning()), now(later);
    const auto pages = produce::comparison_pages(
        {was.document, now.document, was.evaluation, now.evaluation, now.layout, shaper(), {{"wayfolio", "test"}}});
    for (const frame::Frame& page : pages) CHECK(page_faults(page) == Findings{});
    REQUIRE(pages.size() > 1);
    check_golden("blocks/comparison.txt", dump_of({pages.front()}, Figures::HeadLines));
    check_golden("blocks/comparison-more-pages.txt", dump_of({pages.begin() + 1, pages.end()}, Figures::HeadLines));
    check_golden("figures/comparison.txt", dump_of_figures(pages, "x"));
}

}  // namespace wayfolio::testing
