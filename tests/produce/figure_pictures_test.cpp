#include "support/pictures.hpp"
#include "support/small_documents.hpp"

#include <catch2/catch.hpp>

namespace wayfolio::testing {

namespace {

/// What one figure shows of one document, and the reference that holds it.
struct FigurePicture {
    std::string reference;
    nlohmann::json document;
    std::string series, figure;
};

void check_figures(const std::vector<FigurePicture>& pictures) {
    for (const FigurePicture& picture : pictures) {
        const frame::Frame frame = DrawnDocument(picture.document).figure(picture.series, picture.figure);
        CHECK(page_faults(frame) == Findings{});
        check_golden(picture.reference, dump_of(frame));
    }
}

}  // namespace

TEST_CASE("figures of positioning are drawn as they were: both directions, one, one run, gaps, limits, inches, stated values",
          "[pictures]") {
    check_figures({{"figures/error.txt", small::positioning(), "x", "error"},
                   {"figures/error-positive-only.txt", small::without_approach(small::positioning(), "negative"), "x", "error"},
                   {"figures/error-negative-only.txt", small::without_approach(small::positioning(), "positive"), "x", "error"},
                   {"figures/error-one-run.txt", small::one_run_each_way(), "x", "error"},
                   {"figures/error-gaps.txt", small::missing_and_excluded(), "x", "error"},
                   {"figures/error-no-limit.txt", small::document(small::list(small::x_series())), "x", "error"},
                   {"figures/error-far-limit.txt", small::judged("simple", 300), "x", "error"},
                   {"figures/error-inches.txt", small::inches(), "x", "error"},
                   {"figures/error-rotary.txt", small::turn(), "c", "error"},
                   {"figures/error-stated.txt", small::stated_only(), "x", "error"}});
}

TEST_CASE("strips of reversal and repeatability are drawn as they were", "[pictures]") {
    check_figures({{"figures/reversal.txt", small::positioning(), "x", "reversal"},
                   {"figures/reversal-gaps.txt", small::missing_and_excluded(), "x", "reversal"},
                   {"figures/repeatability.txt", small::positioning(), "x", "repeatability"},
                   {"figures/repeatability-positive-only.txt", small::without_approach(small::positioning(), "negative"), "x",
                    "repeatability"},
                   {"figures/repeatability-stated.txt", small::stated_only(), "x", "repeatability"}});
}

TEST_CASE("figures of straightness, angles and the tool point are drawn as they were", "[pictures]") {
    check_figures(
        {{"figures/straightness.txt", small::straightness(), "x-eyx", "error"},
         {"figures/straightness-one-direction.txt", small::without_approach(small::straightness(), "negative"), "x-eyx", "error"},
         {"figures/straightness-trace.txt", small::with_trace(), "x-eyx", "error"},
         {"figures/angle-steps.txt", small::angle_steps(), "steps", "error"},
         {"figures/angle.txt", small::angle(), "x-ebx", "error"},
         {"figures/tool-point.txt", small::tool_point(), "x", "tool-point"}});
}

TEST_CASE("figures round the circle are drawn as they were: closed, open with a gap, one run", "[pictures]") {
    nlohmann::json one_run = small::turn();
    one_run["series"][0]["runs"].get_ref<nlohmann::json::array_t&>().resize(2);
    check_figures({{"figures/polar-positive-only.txt", small::without_approach(small::turn(), "negative"), "c", "polar"},
                   {"figures/polar-half.txt", small::half_turn(), "c", "polar"},
                   {"figures/polar-one-run.txt", one_run, "c", "polar"}});
}

TEST_CASE("the angle of two axes is drawn as it was, open and closed", "[pictures]") {
    check_figures({{"figures/squareness-one-way.txt", small::squareness(30), "x-eyx", "squareness"},
                   {"figures/squareness-other-way.txt", small::squareness(-30), "x-eyx", "squareness"}});
}

TEST_CASE("where the measurement lines ran is drawn as it was", "[pictures]") {
    check_figures({{"figures/measurement-lines.txt", small::upright_tool_point(), "", "measurement-lines"}});
}

TEST_CASE("the record of the surroundings is drawn as it was", "[pictures]") {
    check_figures({{"figures/environment.txt", small::surroundings(), "", "environment"}});
}

}  // namespace wayfolio::testing
