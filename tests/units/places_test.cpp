#include "units/places.hpp"
#include "units/readable_unit.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio::units;

TEST_CASE("the last digit of readings follows from their step") {
    CHECK(decimals_of_step(0.1) == 1);
    CHECK(decimals_of_step(0.001) == 3);
    CHECK(decimals_of_step(1) == 0);
    CHECK(decimals_of_step(arcsecond.in_base * 0.1) == 1);  // 0.48 µrad
    CHECK(decimals_of_step(25.4) == -1);
}

TEST_CASE("a result has two digits of U, but one digit beyond the readings at most, and U never prints as 0") {
    CHECK(decimals_of_result(7.53, 1) == 1);
    CHECK(decimals_of_result(0.527, 1) == 2);
    CHECK(decimals_of_result(0.527, 0) == 1);   // readings in whole micrometres: 0.5
    CHECK(decimals_of_result(0.0341, 1) == 2);  // 0.03
    CHECK(decimals_of_result(0.034, 0) == 2);   // with one decimal it would be 0.0
    CHECK(decimals_of_result(0.034, {}) == 3);
    CHECK(decimals_of_result({}, 1) == 1);
    CHECK(decimals_of_result(0.0, 2) == 2);
    CHECK(decimals_of_result(123.0, 0) == -1);
}

TEST_CASE("what is not 0 has the digits that show it") {
    CHECK(decimals_that_show(0.0003, 1) == 4);
    CHECK(decimals_that_show(-0.04, 1) == 2);
    CHECK(decimals_that_show(0.06, 1) == 1);
    CHECK(decimals_that_show(3, -1) == 0);
    CHECK(decimals_that_show(0, 1) == 1);
}

TEST_CASE("a difference is that of what is printed, and has the digits that show it") {
    const auto closed = printed_difference(71.83, 26.86, 1, 1e-9);
    CHECK(closed.decimals == 1);
    CHECK(closed.value == Approx(-44.9));  // of the values themselves it would be -45.0
    const auto small = printed_difference(1.23, 1.24, 1, 1e-9);
    CHECK(small.decimals == 2);
    CHECK(small.value == Approx(0.01));
    CHECK(printed_difference(0.1 + 0.2, 0.3, 1, 1e-9).decimals == 1);
}

TEST_CASE("a unit is changed for a decimal multiple only, where that brings one to three digits before the point") {
    CHECK(readable_unit(millimetre, {micrometre(1.2)}) == DeviationUnit(micrometre));
    CHECK(readable_unit(micrometre, {micrometre(0.2)}) == DeviationUnit(micrometre));
    CHECK(readable_unit(micrometre, {micrometre(2500)}) == DeviationUnit(millimetre));
    CHECK(readable_unit(inch, {inch(0.00004)}) == DeviationUnit(microinch));
    CHECK(readable_unit(microinch, {microinch(1200)}) == DeviationUnit(microinch));
    CHECK(readable_unit(degree, {degree(0.0003)}) == DeviationUnit(millidegree));
    CHECK(readable_unit(arcsecond, {arcsecond(0.02)}) == DeviationUnit(arcsecond));
    CHECK(readable_unit(micrometre_per_metre, {}) == DeviationUnit(micrometre_per_metre));
}
