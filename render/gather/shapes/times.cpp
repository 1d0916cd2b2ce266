#include "gather/shapes/times.hpp"

#include "input/iso_date.hpp"

#include <fmt/format.h>

#include <cmath>

namespace wayfolio::gather {
namespace {

/// The parts of a time, as digits; empty where the form has none.
struct Parts {
    std::string year, month, day, hour, minute, second;
};

/// Digits in the place of a part of the form: `most` of them, or fewer where no digit follows (1.5.2026).
bool take_digits(std::string_view& text, std::size_t most, std::string& into) {
    std::size_t count = 0;
    while (count < most && count < text.size() && text[count] >= '0' && text[count] <= '9') ++count;
    if (count == 0 || (most == 4 && count != 4)) return false;
    into = text.substr(0, count);
    if (count == 1) into.insert(0, 1, '0');
    text.remove_prefix(count);
    return true;
}

/// Decimals of a second behind it, with a point or a comma.
void take_fraction(std::string_view& text, std::string& second) {
    if (text.size() < 2 || (text[0] != '.' && text[0] != ',') || text[1] < '0' || text[1] > '9') return;
    second += '.';
    for (text.remove_prefix(1); !text.empty() && text[0] >= '0' && text[0] <= '9'; text.remove_prefix(1)) second += text[0];
}

std::optional<Parts> parts_of(std::string_view text, std::string_view form) {
    Parts parts;
    const std::pair<std::string_view, std::string*> known[] = {{"YYYY", &parts.year}, {"MM", &parts.month},  {"DD", &parts.day},
                                                               {"hh", &parts.hour},   {"mm", &parts.minute}, {"ss", &parts.second}};
    while (!form.empty()) {
        bool taken = false;
        for (const auto& [word, into] : known) {
            if (taken || !form.starts_with(word)) continue;
            if (!take_digits(text, word.size(), *into)) return std::nullopt;
            if (word == "ss") take_fraction(text, *into);
            form.remove_prefix(word.size());
            taken = true;
        }
        if (taken) continue;
        if (text.empty() || text[0] != form[0]) return std::nullopt;
        text.remove_prefix(1);
        form.remove_prefix(1);
    }
    return text.empty() ? std::optional(parts) : std::nullopt;
}

std::optional<std::string> checked(std::string time) { return input::iso_date(time) ? std::optional(std::move(time)) : std::nullopt; }

bool has_offset(std::string_view time) {
    const auto date = input::iso_date(time);
    return date && date->offset_minutes.has_value();
}

}  // namespace

std::optional<std::string> time_in(std::string_view text, const TimeSource& source) {
    if (source.form.empty()) {
        std::string time(text);
        if (time.size() > 10 && time[10] == ' ') time[10] = 'T';  // often written so; RFC 3339 5.6 allows it
        if (!source.date.empty() && time.find('-') == std::string::npos) time.insert(0, source.date + "T");
        const bool clock = time.find('T') != std::string::npos;
        return checked(time + (clock && !has_offset(time) ? source.offset : ""));
    }
    const auto parts = parts_of(text, source.form);
    if (!parts) return std::nullopt;
    std::string time = parts->year.empty() ? source.date : fmt::format("{}-{}-{}", parts->year, parts->month, parts->day);
    if (!parts->hour.empty()) {
        time += fmt::format("T{}:{}", parts->hour, parts->minute);
        if (!parts->second.empty()) time += ":" + parts->second;
        time += source.offset;
    }
    return checked(time);
}

std::string time_of_serial(double days, const TimeSource& source) {
    constexpr double day_seconds = 86'400, epoch = 25'569;  // 1970-01-01
    const double seconds = std::round((days - epoch) * day_seconds);
    const auto whole_days = static_cast<std::int64_t>(std::floor(seconds / day_seconds));
    const auto of_day = static_cast<int>(seconds - static_cast<double>(whole_days) * day_seconds);
    // Civil date of a day count, by the Gregorian calendar (H. Hinnant, "chrono-compatible low-level date algorithms").
    const std::int64_t shifted = whole_days + 719'468, era = (shifted >= 0 ? shifted : shifted - 146'096) / 146'097;
    const auto of_era = static_cast<unsigned>(shifted - era * 146'097);
    const unsigned year_of_era = (of_era - of_era / 1460 + of_era / 36'524 - of_era / 146'096) / 365;
    const unsigned of_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100), shifted_month = (5 * of_year + 2) / 153;
    const unsigned day = of_year - (153 * shifted_month + 2) / 5 + 1, month = shifted_month < 10 ? shifted_month + 3 : shifted_month - 9;
    const std::int64_t year = static_cast<std::int64_t>(year_of_era) + era * 400 + (month <= 2 ? 1 : 0);
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}{}", year, month, day, of_day / 3600, of_day / 60 % 60, of_day % 60,
                       source.offset);
}

std::string time_words(const TimeSource& source) {
    return source.form.empty() ? "a time of ISO 8601 that exists, as 2026-05-11T08:10:00"
                               : fmt::format("a time that exists, written {}", source.form);
}

}  // namespace wayfolio::gather
