#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace wayfolio::input {

/// A date or a date with time, by the calendar formats of ISO 8601: 2026-05-11, 2026-05-11T08:10, T08:10:05.5, followed by Z or +02:00.
struct IsoDate {
    int year = 0, month = 0, day = 0;
    std::optional<double> seconds;     ///< of the day, by the clock written; empty for a date alone
    std::optional<int> offset_minutes; ///< from UTC; empty where none is written

    /// Days from 1970-01-01 in the proleptic Gregorian calendar.
    [[nodiscard]] std::int64_t days() const;
};

/// The date written so, or nothing where it is none or does not exist (2026-02-30, 25:00).
std::optional<IsoDate> iso_date(std::string_view text);

/// Whether the text is a date alone: 2026-05-11.
bool is_day(std::string_view text);

/// The day so many months after a day or a date with time, as 2026-05-11; the last of a month that has no such day. "" where it is none.
/// Common practice, no source.
std::string day_after_months(std::string_view day, int months);

/// Whether `later` is certainly before `earlier`. Dates without time compare by the day; where one clock lacks its offset, a day's
/// difference is not enough to be sure.
bool is_before(const IsoDate& later, const IsoDate& earlier);

}  // namespace wayfolio::input
