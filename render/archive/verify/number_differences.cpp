#include "archive/verify/checks.hpp"

#include "input/json/json.hpp"

#include <fmt/format.h>

namespace wayfolio::archive {
namespace {

using input::JsonKind;
using input::Value;

constexpr std::size_t most_listed = 20;

struct Found {
    std::vector<std::string> lines;
    std::size_t more = 0;
    void add(std::string line) {
        if (lines.size() < most_listed) lines.push_back(std::move(line));
        else ++more;
    }
};

void compare(const Value& kept, const Value& fresh, const std::string& pointer, Found& found) {
    if (kept.is(JsonKind::Object) && fresh.is(JsonKind::Object)) {
        for (const Value& value : fresh.items) {
            const std::string below = input::pointer_step(pointer, value.key);
            if (const Value* const there = kept.member(value.key)) compare(*there, value, below, found);
            else found.add(fmt::format("{}: missing; evaluated again: {}", below, input::describe(value)));
        }
        for (const Value& value : kept.items)
            if (!fresh.member(value.key))
                found.add(fmt::format("{}: {}; evaluated again: nothing", input::pointer_step(pointer, value.key), input::describe(value)));
    } else if (kept.is(JsonKind::Array) && fresh.is(JsonKind::Array) && kept.items.size() == fresh.items.size()) {
        for (std::size_t i = 0; i < fresh.items.size(); ++i)
            compare(kept.items[i], fresh.items[i], pointer + "/" + std::to_string(i), found);
    } else if (kept.is(JsonKind::Array) || !input::same_plain(kept, fresh)) {
        found.add(fmt::format("{}: {}; evaluated again: {}", pointer, input::describe(kept), input::describe(fresh)));
    }
}

}  // namespace

std::vector<std::string> number_differences(const std::string& kept, const std::string& fresh) {
    if (kept == fresh) return {};
    Found found;
    try {
        const input::Json before = input::read_json(kept, "kept"), now = input::read_json(fresh, "fresh");
        compare(before.root, now.root, "", found);
    } catch (const input::InputRejected&) {
        return {"not JSON any more"};
    }
    if (found.lines.empty()) found.add("the same values in different bytes");
    if (found.more > 0) found.lines.push_back(fmt::format("{} more values differ", found.more));
    return std::move(found.lines);
}

}  // namespace wayfolio::archive
