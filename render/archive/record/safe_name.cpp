#include "archive/record/bag.hpp"

#include <algorithm>
#include <array>

namespace wayfolio::archive {
namespace {

constexpr std::size_t longest_name = 200;

/// Names that mean a device where they stand before the first point, in either case.
bool is_device(std::string_view name) {
    constexpr std::array<std::string_view, 4> devices{"con", "prn", "aux", "nul"};
    std::string stem(name.substr(0, name.find('.')));
    std::ranges::transform(stem, stem.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + ('a' - 'A')) : c; });
    if (std::ranges::find(devices, stem) != devices.end()) return true;
    return stem.size() == 4 && (stem.starts_with("com") || stem.starts_with("lpt")) && stem[3] >= '0' && stem[3] <= '9';
}

}  // namespace

bool is_safe_name(std::string_view name) {
    constexpr std::string_view refused = "/\\:*?\"<>|%~";
    if (name.empty() || name.size() > longest_name || is_device(name)) return false;
    if (name.front() == '.' || name.front() == '-' || name.front() == ' ' || name.back() == '.' || name.back() == ' ') return false;
    return std::ranges::none_of(name, [&](char c) {
        return static_cast<unsigned char>(c) < 0x20 || c == 0x7f || refused.find(c) != std::string_view::npos;
    });
}

}  // namespace wayfolio::archive
