#include "output/svg/svg_elements.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace wayfolio::output {
namespace {

bool touch(const frame::Rect& one, const frame::Rect& other) {
    return one.left <= other.right() && other.left <= one.right() && one.top <= other.bottom() && other.top <= one.bottom();
}

}  // namespace

SvgElements::Element& SvgElements::with(const std::string& kind, const frame::Rect& bounds, Element otherwise, Like like) {
    constexpr std::size_t most_open = 6;
    for (auto open = open_.rbegin(); open != open_.rend(); ++open) {
        const auto touched = [&] { return std::ranges::any_of(open->parts, [&](const auto& part) { return touch(part, bounds); }); };
        if (open->kind == kind && (like == Like::MayTouch || !touched())) {
            open->parts.push_back(bounds);
            return open->element;
        }
        if (touched()) break;
    }
    if (open_.size() == most_open) {
        write(open_.front().element);
        open_.pop_front();
    }
    return open_.emplace_back(Open{std::move(otherwise), kind, {bounds}}).element;
}

void SvgElements::add(const std::string& text) {
    for (const Open& open : std::exchange(open_, {})) write(open.element);
    text_ += text;
}

std::string SvgElements::written() {
    add("");
    return std::exchange(text_, "");
}

void SvgElements::write(const Element& element) {
    if (!element.path.empty()) text_ += fmt::format("<path d=\"{}\"{}/>\n", element.path.text(), element.looks);
    if (!element.glyphs.empty()) text_ += fmt::format("<g{}>{}</g>\n", element.looks, element.glyphs);
}

}  // namespace wayfolio::output
