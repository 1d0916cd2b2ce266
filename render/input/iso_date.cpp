#include "input/iso_date.hpp"

#include <fmt/format.h>

#include <chrono>

namespace wayfolio::input {
namespace {

/// Takes the text apart from its front.
class Cursor {
public:
    explicit Cursor(std::string_view text) : rest_(text) {}

    /// Exactly `count` digits, from `least` to `most`; else the cursor fails.
    int digits(std::size_t count, int least, int most) {
        int number = 0;
        if (rest_.size() < count) return fail();
        for (const char letter : rest_.substr(0, count)) {
            if (letter < '0' || letter > '9') return fail();
            number = number * 10 + (letter - '0');
        }
        rest_.remove_prefix(count);
        return number < least || number > most ? fail() : number;
    }
    bool take(char letter) {
        if (!rest_.starts_with(letter)) return false;
        rest_.remove_prefix(1);
        return true;
    }
    void expect(char letter) {
        if (!take(letter)) fail();
    }
    double fraction() {
        double part = 0, scale = 0.1;
        if (rest_.empty() || rest_[0] < '0' || rest_[0] > '9') fail();
        for (; !rest_.empty() && rest_[0] >= '0' && rest_[0] <= '9'; rest_.remove_prefix(1), scale /= 10) part += scale * (rest_[0] - '0');
        return part;
    }
    [[nodiscard]] bool at_end() const { return rest_.empty(); }
    [[nodiscard]] bool good() const { return good_; }

private:
    int fail() {
        good_ = false;
        return 0;
    }
    std::string_view rest_;
    bool good_ = true;
};

double time_of_day(Cursor& cursor) {
    const int hour = cursor.digits(2, 0, 23);
    cursor.expect(':');
    double seconds = 3600.0 * hour + 60.0 * cursor.digits(2, 0, 59);
    if (!cursor.take(':')) return seconds;
    seconds += cursor.digits(2, 0, 60);  // 60: a leap second
    if (cursor.take('.')) seconds += cursor.fraction();
    return seconds;
}

std::optional<int> utc_offset(Cursor& cursor) {
    if (cursor.take('Z')) return 0;
    const bool east = cursor.take('+');
    if (!east && !cursor.take('-')) return std::nullopt;
    const int hours = cursor.digits(2, 0, 14);
    cursor.expect(':');
    const int minutes = 60 * hours + cursor.digits(2, 0, 59);
    return east ? minutes : -minutes;
}

}  // namespace

std::int64_t IsoDate::days() const {
    const std::chrono::year_month_day date{std::chrono::year(year), std::chrono::month(static_cast<unsigned>(month)),
                                           std::chrono::day(static_cast<unsigned>(day))};
    return std::chrono::sys_days(date).time_since_epoch().count();
}

std::string day_after_months(std::string_view day, int months) {
    const auto date = iso_date(day);
    if (!date) return "";
    using namespace std::chrono;
    year_month_day later = year{date->year} / date->month / date->day + std::chrono::months{months};
    if (!later.ok()) later = later.year() / later.month() / last;
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(later.year()), static_cast<unsigned>(later.month()),
                       static_cast<unsigned>(later.day()));
}

bool is_day(std::string_view text) {
    const auto date = iso_date(text);
    return date && !date->seconds;
}

std::optional<IsoDate> iso_date(std::string_view text) {
    Cursor cursor(text);
    IsoDate date;
    date.year = cursor.digits(4, 1, 9999);
    cursor.expect('-');
    date.month = cursor.digits(2, 1, 12);
    cursor.expect('-');
    date.day = cursor.digits(2, 1, 31);
    if (cursor.take('T')) {
        date.seconds = time_of_day(cursor);
        date.offset_minutes = utc_offset(cursor);
    }
    if (!cursor.good() || !cursor.at_end()) return std::nullopt;
    const std::chrono::year_month_day calendar{std::chrono::year(date.year), std::chrono::month(static_cast<unsigned>(date.month)),
                                               std::chrono::day(static_cast<unsigned>(date.day))};
    return calendar.ok() ? std::optional(date) : std::nullopt;
}

bool is_before(const IsoDate& later, const IsoDate& earlier) {
    const bool by_clock = later.seconds && earlier.seconds;
    if (!by_clock) return later.days() < earlier.days();
    const auto instant = [](const IsoDate& date) {
        return 86400.0 * static_cast<double>(date.days()) + *date.seconds - 60.0 * date.offset_minutes.value_or(0);
    };
    const bool comparable = later.offset_minutes.has_value() == earlier.offset_minutes.has_value();
    // Clocks of the world differ by at most 26 hours (UTC-12 to UTC+14).
    return instant(later) < instant(earlier) - (comparable ? 0.0 : 26.0 * 3600);
}

}  // namespace wayfolio::input
