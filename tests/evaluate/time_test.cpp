#include "evaluate/surroundings/time.hpp"

#include <catch2/catch.hpp>

using wayfolio::evaluate::seconds_of;

TEST_CASE("a time counts seconds from 1970 in UTC, whatever the offset it is written with") {
    // 1 000 000 000 s after the epoch is 2001-09-09T01:46:40Z (a well-known moment of Unix time).
    CHECK(seconds_of("2001-09-09T01:46:40Z") == 1e9);
    CHECK(seconds_of("2001-09-09T03:46:40+02:00") == 1e9);
    CHECK(seconds_of("2001-09-08T20:16:40-05:30") == 1e9);
    CHECK(seconds_of("2001-09-09T01:46:40.5") == 1e9 + 0.5);
    CHECK(seconds_of("1970-01-02") == 86400.0);
    CHECK(*seconds_of("2026-05-11T08:10+02:00") - *seconds_of("2026-05-11T08:00+02:00") == 600.0);
    CHECK(seconds_of("2024-02-29").has_value());
}

TEST_CASE("what is not a date and time is no moment") {
    for (const char* text :
         {"", "today", "2026-02-30", "2026-05-11T", "2026-05-11T8:10", "2026-05-11T08:61", "2026-05-11T08:10Zx"}) {
        CAPTURE(text);
        CHECK_FALSE(seconds_of(text).has_value());
    }
}
