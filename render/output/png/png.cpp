#include "output/canvas.hpp"
#include "output/memory_stream.hpp"
#include "output/sane_frame.hpp"

#include <zlib.h>

#include <cmath>
#include <cstdint>
#include <utility>

namespace wayfolio::output {
namespace {

std::string four_bytes(std::uint32_t value) {
    std::string bytes;
    for (const int shift : {24, 16, 8, 0}) bytes += static_cast<char>((value >> shift) & 0xFF);
    return bytes;
}

/// The resolution in the picture, which Cairo leaves out: a chunk pHYs behind the first one (PNG, ISO/IEC 15948, 11.3.5.3).
std::string stating(double dots_per_inch, std::string png) {
    constexpr std::size_t signature = 8, head = 25;
    constexpr double inch = 0.0254;
    const std::string each_way = four_bytes(static_cast<std::uint32_t>(std::lround(dots_per_inch / inch)));
    const std::string chunk = "pHYs" + each_way + each_way + '\x01';  // a metre
    const auto* bytes = reinterpret_cast<const Bytef*>(chunk.data());
    const std::string check = four_bytes(static_cast<std::uint32_t>(crc32(0, bytes, static_cast<uInt>(chunk.size()))));
    constexpr std::size_t kind = 4;
    return png.insert(signature + head, four_bytes(static_cast<std::uint32_t>(chunk.size() - kind)) + chunk + check);
}

}  // namespace

std::string png(const frame::Frame& frame, const text::Shaper& shaper, double dots_per_inch) {
    require_sane(frame);
    const double scale = dots_per_inch / 72.0;
    const int width = static_cast<int>(std::ceil(frame.width.in(units::point)*scale - 1e-6));
    const int height = static_cast<int>(std::ceil(frame.height.in(units::point)*scale - 1e-6));
    const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height));
    const Context context(cairo_create(surface.get()));
    cairo_set_source_rgb(context.get(), 1, 1, 1);
    cairo_paint(context.get());
    cairo_scale(context.get(), scale, scale);
    // Outlines: an image surface would move every glyph to a whole pixel.
    Canvas(context.get(), shaper, TextAs::Outlines, Scaling::Smooth).show(frame.items);
    require(cairo_status(context.get()), "PNG");
    cairo_surface_flush(surface.get());
    std::string bytes;
    require(cairo_surface_write_to_png_stream(surface.get(), append_to_string, &bytes), "PNG");
    return stating(dots_per_inch, std::move(bytes));
}

}  // namespace wayfolio::output
