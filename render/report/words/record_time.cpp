#include "report/words/record_time.hpp"

#include "input/iso_date.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace wayfolio::report {

RecordClock::RecordClock(const std::string& first) {
    const auto written = input::iso_date(first);
    if (!written || !written->seconds) return;
    first_ = evaluate::seconds_of(first);
    minutes_of_first_ = *written->seconds / 60;
}

std::optional<double> RecordClock::minutes(const std::string& time) const {
    const auto written = input::iso_date(time);
    if (!first_ || !written || !written->seconds) return std::nullopt;
    const auto at = evaluate::seconds_of(time);
    if (!at) return std::nullopt;
    return minutes_of_first_ + (*at - *first_) / 60;
}

void RecordRange::add(double value) {
    if (count++ == 0) first = low = high = value;
    low = std::min(low, value);
    high = std::max(high, value);
    last = value;
}

std::string span_words(const std::string& first_day, double from, double to) {
    constexpr double day = 24 * 60, hour = 60;
    if (from >= 0 && to < day) return "on " + first_day + " from " + clock_words(from) + " to " + clock_words(to);
    return fmt::format("from {} {} over {} h", first_day, clock_words(from), std::lround((to - from) / hour));
}

std::string clock_words(double minutes) {
    constexpr long day = 24 * 60;
    const long whole = ((std::lround(minutes) % day) + day) % day;
    return fmt::format("{:02}:{:02}", whole / 60, whole % 60);
}

}  // namespace wayfolio::report
