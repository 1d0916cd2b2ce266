#include "output/picture/lean_png.hpp"

#include "output/output.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <string_view>

namespace wayfolio::output {

namespace {

constexpr std::size_t most_pixels = std::size_t{16} << 20, most_a_side = 16'384;
constexpr std::size_t signature_bytes = 8, chunk_head = 8, check_bytes = 4;  // PNG specification (ISO/IEC 15948), 5.2 and 5.3
constexpr std::array<std::string_view, 5> of_pixels{"IHDR", "PLTE", "tRNS", "IDAT", "IEND"};

[[noreturn]] void refuse_png(std::string found) {
    throw PictureRefused(std::move(found), fmt::format("a sound PNG picture of at most {} pixels", most_pixels));
}

std::size_t number_at(const std::string& png, std::size_t place) {
    std::size_t number = 0;
    for (std::size_t i = 0; i < 4; ++i) number = number << 8U | static_cast<std::uint8_t>(png[place + i]);
    return number;
}

/// The head must come first (11.2.2): width and height stand in it.
void check_size(const std::string& png) {
    if (png.size() < signature_bytes + chunk_head + 8 || png.compare(signature_bytes + 4, 4, "IHDR") != 0)
        refuse_png("a PNG picture without its head");
    const std::size_t width = number_at(png, signature_bytes + chunk_head), height = number_at(png, signature_bytes + chunk_head + 4);
    if (width == 0 || height == 0 || width > most_a_side || height > most_a_side || width * height > most_pixels)
        refuse_png(fmt::format("a PNG picture of {} by {} pixels", width, height));
}

}  // namespace

std::string lean_png(const std::string& png) {
    check_size(png);
    std::string lean = png.substr(0, signature_bytes);
    for (std::size_t at = signature_bytes; !lean.ends_with("IEND\xAE\x42\x60\x82");) {
        if (png.size() - at < chunk_head + check_bytes) refuse_png("a PNG picture that is cut off");
        const std::size_t whole = chunk_head + number_at(png, at) + check_bytes;
        if (png.size() - at < whole) refuse_png("a PNG picture that is cut off");
        if (std::ranges::find(of_pixels, std::string_view(png).substr(at + 4, 4)) != of_pixels.end()) lean.append(png, at, whole);
        at += whole;
    }
    return lean;
}

}  // namespace wayfolio::output
