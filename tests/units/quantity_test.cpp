#include "units/position.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio::units;

TEST_CASE("an inch is 25.4 millimetres") {
    CHECK(inch(1).in(millimetre) == 25.4);
    CHECK(microinch(1e6).in(millimetre) == Approx(25.4).epsilon(1e-15));
}

TEST_CASE("one arcsecond is 4.84813681109536 microradian") {
    // CODATA-independent: pi / 648 000, SI Brochure 9th edition table 8.
    CHECK(arcsecond(1).in(microradian) == Approx(4.84813681109536).epsilon(1e-15));
}

TEST_CASE("two places subtract to a deviation") {
    const Position a(250, position_millimetre), b(1, position_inch);
    CHECK((a - b).in(DeviationUnit(millimetre)) == Approx(224.6));
}

TEST_CASE("a unit is found by its spelling and nothing else") {
    CHECK(deviation_unit("um/m")->dimension == Dimension::Angle);
    CHECK_FALSE(deviation_unit("µm"));
    CHECK(position_unit("deg")->dimension == Dimension::Angle);
    CHECK_FALSE(position_unit("cm"));
}
