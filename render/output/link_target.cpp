#include "output/link_target.hpp"

#include <fmt/format.h>

#include <cmath>
#include <set>
#include <stdexcept>

namespace wayfolio::output {

namespace {

void collect(const std::vector<frame::Item>& items, std::set<std::string>& anchors, std::set<std::string>& wanted) {
    for (const frame::Item& item : items) {
        if (const auto* link = std::get_if<frame::Link>(&item); link && link->uri.empty()) wanted.insert(link->destination);
        const auto* group = std::get_if<frame::Group>(&item);
        if (!group) continue;
        if (!group->anchor.empty() && !anchors.insert(group->anchor).second)
            throw std::logic_error("two groups have the anchor \"" + group->anchor + "\"");
        collect(group->items, anchors, wanted);
    }
}

}  // namespace

void require_anchors(const std::vector<frame::Frame>& pages) {
    std::set<std::string> anchors, wanted;
    for (const frame::Frame& page : pages) collect(page.items, anchors, wanted);
    for (const std::string& destination : wanted)
        if (!anchors.contains(destination))
            throw std::logic_error("a link goes to \"" + destination + "\", which no group has as its anchor");
}

std::string escaped_uri(const std::string& uri) {
    constexpr std::string_view special = "'\"\\()<>^`{|}";
    std::string escaped;
    for (const char c : uri) {
        const auto byte = static_cast<unsigned char>(c);
        const bool plain = byte > 0x20 && byte < 0x7f && special.find(c) == std::string_view::npos;
        escaped += plain ? std::string(1, c) : fmt::format("%{:02X}", byte);
    }
    return escaped;
}

std::string rect_attribute(const std::vector<const frame::Link*>& links) {
    std::string numbers;
    for (const frame::Link* link : links) {
        const auto& box = link->box;
        const double left = std::floor(box.left.in(units::point)), top = std::floor(box.top.in(units::point));
        const double right = std::ceil(box.right().in(units::point)), bottom = std::ceil(box.bottom().in(units::point));
        numbers +=
            fmt::format("{}{:.0f} {:.0f} {:.0f} {:.0f}", numbers.empty() ? "" : " ", left, top, right - left, bottom - top);
    }
    return "rect=[" + numbers + "]";
}

}  // namespace wayfolio::output
