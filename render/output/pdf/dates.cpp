#include "output/pdf/dates.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <stdexcept>
#include <string_view>

namespace wayfolio::output {

namespace {

/// Takes the front of `rest` when it has the form: 0 stands for a digit, everything else for itself.
std::optional<std::string> take(std::string_view& rest, std::string_view form) {
    const auto fits = [](char c, char wanted) { return wanted == '0' ? c >= '0' && c <= '9' : c == wanted; };
    if (rest.size() < form.size() || !std::equal(form.begin(), form.end(), rest.begin(), [&](char wanted, char c) { return fits(c, wanted); }))
        return std::nullopt;
    std::string taken(rest.substr(0, form.size()));
    rest.remove_prefix(form.size());
    return taken;
}

std::optional<std::string> take_zone(std::string_view& rest) {
    for (const char* form : {"Z", "+00:00", "-00:00"})
        if (auto zone = take(rest, form)) return zone;
    return std::nullopt;
}

}  // namespace

std::string whole_time(const std::string& date) {
    if (date.empty()) return "1970-01-01T00:00:00Z";
    std::string_view rest = date;
    const std::optional<std::string> day = take(rest, "0000-00-00");
    std::optional<std::string> minutes = "00:00", seconds, zone;
    if (take(rest, "T")) {
        minutes = take(rest, "00:00");
        seconds = take(rest, ":00");
        if (seconds && take(rest, ".0"))
            while (take(rest, "0")) {}
        zone = take_zone(rest);
    }
    if (!day || !minutes || !rest.empty()) throw std::logic_error("\"" + date + "\" is no ISO 8601 date");
    return fmt::format("{}T{}{}{}", *day, *minutes, seconds.value_or(":00"), zone.value_or("Z"));
}

std::string pdf_date(const std::string& whole_time) {
    constexpr std::size_t zone_at = 19;
    std::string time = whole_time.substr(0, zone_at);
    std::erase_if(time, [](char c) { return c < '0' || c > '9'; });
    const std::string zone = whole_time.substr(zone_at);
    return fmt::format("D:{}{}", time, zone == "Z" ? "+00'00'" : fmt::format("{}'{}'", zone.substr(0, 3), zone.substr(4)));
}

}  // namespace wayfolio::output
