#include "output/link_target.hpp"

#include <fmt/format.h>

#include <cmath>

namespace wayfolio::output {

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
        numbers += fmt::format("{}{:.0f} {:.0f} {:.0f} {:.0f}", numbers.empty() ? "" : " ", left, top, right - left, bottom - top);
    }
    return "rect=[" + numbers + "]";
}

}  // namespace wayfolio::output
