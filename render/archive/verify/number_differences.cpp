#include "archive/verify/number_differences.hpp"

#include "evaluate/written/json_text.hpp"

#include <fmt/format.h>

namespace wayfolio::archive {
namespace {

using evaluate::Json;

constexpr std::size_t most_listed = 20, longest_shown = 60;

struct Found {
    std::vector<std::string> lines;
    std::size_t more = 0;
    void add(std::string line) {
        if (lines.size() < most_listed) lines.push_back(std::move(line));
        else ++more;
    }
};

std::string shown(const Json& value) {
    if (value.is_object()) return "an object";
    if (value.is_array()) return fmt::format("an array of {}", value.size());
    const std::string text = value.dump(-1, ' ', /*ensure_ascii=*/false, Json::error_handler_t::replace);
    return text.size() > longest_shown ? text.substr(0, longest_shown) + "..." : text;
}

void compare(const Json& kept, const Json& fresh, const std::string& pointer, Found& found) {
    if (kept.is_object() && fresh.is_object()) {
        for (const auto& [key, value] : fresh.items()) {
            if (kept.contains(key)) compare(kept[key], value, pointer + "/" + key, found);
            else found.add(fmt::format("{}/{}: missing; evaluated again: {}", pointer, key, shown(value)));
        }
        for (const auto& [key, value] : kept.items())
            if (!fresh.contains(key)) found.add(fmt::format("{}/{}: {}; evaluated again: nothing", pointer, key, shown(value)));
    } else if (kept.is_array() && fresh.is_array() && kept.size() == fresh.size()) {
        for (std::size_t i = 0; i < fresh.size(); ++i) compare(kept[i], fresh[i], pointer + "/" + std::to_string(i), found);
    } else if (kept != fresh) {
        found.add(fmt::format("{}: {}; evaluated again: {}", pointer, shown(kept), shown(fresh)));
    }
}

}  // namespace

std::vector<std::string> number_differences(const std::string& kept, const std::string& fresh) {
    if (kept == fresh) return {};
    const Json before = Json::parse(kept, nullptr, /*allow_exceptions=*/false), now = Json::parse(fresh);
    if (before.is_discarded()) return {"it is not JSON any more"};
    Found found;
    compare(before, now, "", found);
    if (found.lines.empty()) found.add("the same values, written in other bytes");
    if (found.more > 0) found.lines.push_back(fmt::format("{} more values differ", found.more));
    return std::move(found.lines);
}

}  // namespace wayfolio::archive
