#include "output/canvas.hpp"
#include "output/memory_stream.hpp"
#include "output/sane_frame.hpp"

#include <cmath>

namespace wayfolio::output {

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
    return bytes;
}

}  // namespace wayfolio::output
