#include "evaluate/surroundings/surroundings.hpp"
#include "evaluate/numbers/expansion.hpp"
#include "support/documents.hpp"
#include "support/evaluations.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using evaluate::SetupVerdict;

namespace {

document::Document with_checks(std::vector<document::SetupCheck> checks) {
    document::Document document;
    support::add_axis(document, "X", 0, 1000);
    document.setup.emplace();
    document.setup->checks = std::move(checks);
    return document;
}

}  // namespace

TEST_CASE("a beam at an angle reads short by the known amounts") {
    // Closed form L (1 - cos theta): 1 mm and 0.5 mm in 1 m, one minute of arc on 1 m.
    CHECK(evaluate::cosine_error_um(1000, 1e-3) == Approx(0.5).epsilon(1e-6));
    CHECK(evaluate::cosine_error_um(1000, 0.5e-3) == Approx(0.125).epsilon(1e-6));
    CHECK(evaluate::cosine_error_um(1000, units::pi / 10800) == Approx(0.04231).epsilon(0).margin(5e-6));
}

TEST_CASE("offsets at two positions give the cosine error over the travel") {
    const auto errors = evaluate::evaluate_cosine(
        with_checks({support::beam_offset("beam offset, near end", 0, 0.2), support::beam_offset("beam offset, far end", 1000, 1.2)}));
    REQUIRE(errors.size() == 1);
    CHECK(errors[0].axis == "X");
    CHECK(errors[0].um == Approx(0.5).epsilon(1e-5));
    CHECK(errors[0].um_per_m == Approx(0.5).epsilon(1e-5));
    CHECK(errors[0].resolved);
    CHECK(errors[0].least_um == Approx(0.005).epsilon(1e-4));  // 0.05 mm at either end, 0.1 mm in 1 m
    CHECK(errors[0].checks == std::vector<std::size_t>{0, 1});
}

TEST_CASE("an offset read on the returning beam is twice that of the beam: half of it enters, its last digit too") {
    // 2 mm between the ends on the returning beam are 1 mm of the beam: 0.5 µm in 1 m by the closed form, and not 2.
    auto near = support::beam_offset("beam offset, near end", 0, 0.4), far = support::beam_offset("beam offset, far end", 1000, 2.4);
    near.read_on = far.read_on = document::ReadOn::ReturningBeam;
    const auto errors = evaluate::evaluate_cosine(with_checks({near, far}));
    REQUIRE(errors.size() == 1);
    CHECK(errors[0].um == Approx(0.5).epsilon(1e-5));
    CHECK(errors[0].least_um == Approx(0.00125).epsilon(1e-4));
    // A limit is held against the reading as it is written.
    near.at_most = 0.3;
    CHECK(evaluate::evaluate_setup(with_checks({near}))[0].outcome == SetupVerdict::Fail);
}

TEST_CASE("horizontal and vertical offsets add as squares") {
    const auto errors = evaluate::evaluate_cosine(
        with_checks({support::beam_offset("horizontal, near", 0, 0), support::beam_offset("vertical, near", 0, 0),
                     support::beam_offset("horizontal, far", 1000, 0.6), support::beam_offset("vertical, far", 1000, 0.8)}));
    REQUIRE(errors.size() == 1);
    CHECK(errors[0].um == Approx(0.5).epsilon(1e-5));
}

TEST_CASE("offsets that differ by less than their digits tell do not resolve the angle") {
    const auto errors = evaluate::evaluate_cosine(
        with_checks({support::beam_offset("beam offset, near end", 0, 0.2), support::beam_offset("beam offset, far end", 1000, 0.3)}));
    REQUIRE(errors.size() == 1);
    CHECK_FALSE(errors[0].resolved);
}

TEST_CASE("one offset alone gives no cosine error") {
    CHECK(evaluate::evaluate_cosine(with_checks({support::beam_offset("beam offset, near end", 0, 0.2)})).empty());
    CHECK(evaluate::evaluate_cosine(document::Document{}).empty());
}

TEST_CASE("set-up checks are judged by the document's own limits") {
    document::SetupCheck within = support::beam_offset("a", 0, 0.5), outside = support::beam_offset("b", 0, 0.6),
                         weak = support::beam_offset("c", 0, 59), done, undone, open, unlimited = support::beam_offset("g", 0, 1);
    within.at_most = outside.at_most = 0.5;
    weak.at_least = 60;
    done.done = true;
    done.basis = "common practice";
    undone.done = false;
    const auto outcomes = evaluate::evaluate_setup(with_checks({within, outside, weak, done, undone, open, unlimited}));
    REQUIRE(outcomes.size() == 7);
    const std::vector<SetupVerdict> expected{SetupVerdict::Pass,      SetupVerdict::Fail, SetupVerdict::Fail,
                                             SetupVerdict::Pass,      SetupVerdict::Fail, SetupVerdict::NotDecided,
                                             SetupVerdict::NotDecided};
    for (std::size_t i = 0; i < outcomes.size(); ++i) CHECK(outcomes[i].outcome == expected[i]);
    CHECK(outcomes[3].common_practice);
    CHECK_FALSE(outcomes[0].common_practice);
    CHECK(outcomes[6].reason == "no limit is stated");
}

TEST_CASE("expansion to 20 degrees follows the closed form") {
    // Steel, 1 m, 1 K: 11.5 um (Swyt, NIST J. Res. 99 (1994) 31); 1750 mm, 11.7, 2.5 K: 51.1875 um (arithmetic).
    CHECK(evaluate::expansion_um(1, 11.5, 21) == Approx(11.5).epsilon(1e-15));
    CHECK(evaluate::expansion_um(1.75, 11.7, 22.5) == Approx(51.1875).epsilon(1e-15));
    const auto u = evaluate::expansion_uncertainty(2, 11.5, 0.5, 17, 0.1);
    CHECK(u.from_coefficient == Approx(3).epsilon(1e-15));
    CHECK(u.from_temperature == Approx(2.3).epsilon(1e-15));
    CHECK(u.combined == Approx(std::sqrt(9 + 2.3 * 2.3)).epsilon(1e-15));
    CHECK(evaluate::rectangular_standard(1) == Approx(0.5 / std::sqrt(3.0)).epsilon(1e-15));
}
