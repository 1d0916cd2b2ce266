#include "output/canvas.hpp"
#include "output/svg/finish_svg.hpp"
#include "output/memory_stream.hpp"
#include "output/sane_frame.hpp"

#include <cairo-svg.h>

namespace wayfolio::output {

std::string svg(const frame::Frame& frame, const Metadata& metadata, const text::Shaper& shaper) {
    require_sane(frame);
    std::string bytes;
    const double width = frame.width.in(units::point), height = frame.height.in(units::point);
    const Surface surface(cairo_svg_surface_create_for_stream(append_to_string, &bytes, width, height));
    {
        const Context context(cairo_create(surface.get()));
        Canvas(context.get(), shaper, TextAs::Glyphs, Scaling::Smooth).show(frame.items);
        require(cairo_status(context.get()), "SVG");
    }
    cairo_surface_finish(surface.get());
    require(cairo_surface_status(surface.get()), "SVG");
    return finish_svg(std::move(bytes), frame, metadata);
}

}  // namespace wayfolio::output
