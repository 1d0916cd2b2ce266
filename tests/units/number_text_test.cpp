#include "units/number_text.hpp"

#include <catch2/catch.hpp>

#include <limits>

using namespace wayfolio::units;

TEST_CASE("a number has a true minus and thin spaces between thousands") {
    CHECK(number(-4.2, 2) == "\u22124.20");
    CHECK(number(1736.5, 1) == "1\u202f736.5");
    CHECK(number(1234567, 0) == "1\u202f234\u202f567");
    CHECK(number(6.35, 2, {','}) == "6,35");
}

TEST_CASE("a number takes no more decimals than show it, and none for the rounding of doubles") {
    CHECK(decimals_needed(3, 3) == 0);
    CHECK(decimals_needed(-12.5, 3) == 1);
    CHECK(decimals_needed(0.1 + 0.2, 3) == 1);
    CHECK(decimals_needed(0.001, 9) == 3);
    CHECK(decimals_needed(1e-7, 9) == 7);
    CHECK(decimals_needed(1.0 / 3, 3) == 3);
}

TEST_CASE("a number is never minus zero") {
    CHECK(number(-0.004, 2) == "0.00");
    CHECK(number(-0.0, 0) == "0");
    CHECK(number(-4, -1) == "0");
}

TEST_CASE("ties go to even, as rule A of ISO 80000-1:2009 Annex B shows") {
    CHECK(number(12.223, 1) == "12.2");
    CHECK(number(12.251, 1) == "12.3");
    CHECK(number(12.25, 1) == "12.2");
    CHECK(number(1222.3, -1) == "1\u202f220");
    CHECK(number(1225.0, -1) == "1\u202f220");
    CHECK(number(1235.0, -1) == "1\u202f240");
    CHECK(number(1225.1, -1) == "1\u202f230");
}

TEST_CASE("two significant digits of U fix the decimals (GUM 7.2.6)") {
    CHECK(decimals_for_uncertainty(0.027) == 3);  // GUM 7.2.6: 10,057 62 with 0,027 becomes 10,058
    CHECK(number(10.05762, decimals_for_uncertainty(0.027)) == "10.058");
    CHECK(decimals_for_uncertainty(7.53) == 1);
    CHECK(decimals_for_uncertainty(12.4) == 0);
    CHECK(decimals_for_uncertainty(123) == -1);
}

TEST_CASE("rounding U up to the next power of ten carries into the decimals") {
    CHECK(decimals_for_uncertainty(0.996) == 1);
    CHECK(number(0.996, 1) == "1.0");
    CHECK(decimals_for_uncertainty(99.6) == -1);
    CHECK(number(99.6, -1) == "100");
}

TEST_CASE("a number that is not finite never becomes text") {
    CHECK_THROWS_AS(number(std::numeric_limits<double>::quiet_NaN(), 1), std::logic_error);
    CHECK_THROWS_AS(decimals_for_uncertainty(0), std::logic_error);
}
