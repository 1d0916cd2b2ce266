#include "document/read/reading.hpp"

#include <algorithm>
#include <array>

namespace wayfolio::document {
namespace {

constexpr std::size_t largest_logo = std::size_t{4} << 20;
constexpr std::string_view png_signature = "\x89PNG\r\n\x1a\n";  // PNG specification (ISO/IEC 15948), clause 5.2

bool is_base64(std::string_view text) {
    const auto belongs = [](char letter) {
        return (letter >= 'A' && letter <= 'Z') || (letter >= 'a' && letter <= 'z') || (letter >= '0' && letter <= '9') ||
               letter == '+' || letter == '/';
    };
    const auto padding = std::min(text.find('='), text.size());
    const std::string_view end = text.substr(padding);
    return !text.empty() && text.size() % 4 == 0 && std::ranges::all_of(text.substr(0, padding), belongs) &&
           (end.empty() || end == "=" || end == "==");
}

/// A data: URI (RFC 2397) of an image that can be drawn.
bool is_image_uri(std::string_view uri) {
    constexpr std::array<std::string_view, 2> base64_heads{"data:image/png;base64,", "data:image/svg+xml;base64,"};
    for (const std::string_view head : base64_heads)
        if (uri.starts_with(head)) return is_base64(uri.substr(head.size()));
    return false;
}

bool is_image(std::string_view bytes) {
    return bytes.starts_with(png_signature) || bytes.substr(0, 4096).find("<svg") != std::string_view::npos;
}

}  // namespace

std::string read_logo(const Value& value, Reading& reading) {
    if (value.is(JsonKind::String) && value.text.starts_with("data:")) {
        if (is_image_uri(value.text) && value.text.size() <= largest_logo) return std::string(value.text);
        reading.faults.add_wrong(value, "data:image/png;base64,… or data:image/svg+xml;base64,… of at most 4 MiB");
        return {};
    }
    const auto bytes = read_side_file(value, reading);
    if (!bytes) return {};
    if (is_image(*bytes) && bytes->size() <= largest_logo) return std::string(value.text);
    reading.faults.add_wrong(value, "an SVG or PNG file of at most 4 MiB");
    return {};
}

}  // namespace wayfolio::document
