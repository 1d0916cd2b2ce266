#pragma once
#include "frame/frame.hpp"

#include <algorithm>
#include <type_traits>

namespace wayfolio::frame {

/// What a visitor answers: On (or nothing at all) goes on, Past leaves out what a group holds, Stop ends the walk.
enum class Walk { On, Past, Stop };

/// The groups around an item, outermost first. They and their clips are all its surroundings: points are absolute, nothing is transformed.
using Around = std::vector<const Group*>;

template <class Visitor>
class Walker {
public:
    explicit Walker(Visitor& visitor) : visitor_(visitor) {}

    bool through(const std::vector<Item>& items) {
        return std::ranges::all_of(items, [&](const Item& item) { return through(item); });
    }
    bool through(const Item& item) {
        return std::visit([&](const auto& kind) { return past(kind); }, item);
    }

private:
    template <class Kind>
    bool past(const Kind& kind) {
        return answer(kind) != Walk::Stop;
    }
    bool past(const Group& group) {
        const Walk next = answer(group);
        if (next != Walk::On) return next == Walk::Past;
        around_.push_back(&group);
        const bool on = through(group.items);
        around_.pop_back();
        return on;
    }

    template <class Kind>
    Walk answer(const Kind& kind) {
        if constexpr (std::is_invocable_v<Visitor&, const Kind&, const Around&>)
            return on_unless_said([&] { return visitor_(kind, around_); });
        else if constexpr (std::is_invocable_v<Visitor&, const Kind&>) return on_unless_said([&] { return visitor_(kind); });
        else return Walk::On;
    }
    template <class Call>
    static Walk on_unless_said(Call call) {
        if constexpr (std::is_void_v<decltype(call())>) return call(), Walk::On;
        else return call();
    }

    Visitor& visitor_;
    Around around_;
};

/// Visits the items in reading order, each group before what it holds. The visitor takes the kinds it wants to see, `const GlyphRun&` or
/// several by `overloaded`, alone or with `const Around&` after it; other kinds are passed over, but groups are entered all the same. It
/// never takes `const Item&`, which would be a copy of each kind. Whether the walk came to its end: false after Stop. Throws only what the
/// visitor throws.
template <class Visitor>
bool walk(const std::vector<Item>& items, Visitor&& visitor) {
    return Walker(visitor).through(items);
}
/// The same for one item and what it holds.
template <class Visitor>
bool walk(const Item& item, Visitor&& visitor) {
    return Walker(visitor).through(item);
}

}  // namespace wayfolio::frame
