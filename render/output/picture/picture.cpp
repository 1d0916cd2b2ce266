#include "output/picture/picture.hpp"

#include "output/memory_stream.hpp"
#include "output/picture/lean_png.hpp"
#include "output/picture/svg_library.hpp"
#include "output/picture/svg_scan.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>

namespace wayfolio::output {

namespace {

using units::point;
using Svg = text::Owned<RsvgHandle, g_object_unref>;

constexpr double pixels_per_point = 600.0 / 72.0;
constexpr int most_pixels_a_side = 8192;

PictureRefused no_svg(std::string found) { return {std::move(found), "an SVG picture that can be drawn, or a PNG picture"}; }

struct Place {
    double left, top, width, height;
};

/// The largest place of the picture's aspect in the box, centred.
Place fitted(const frame::Rect& box, double width, double height) {
    const double scale = std::min(box.width.in(point) / width, box.height.in(point) / height);
    return {box.left.in(point) + (box.width.in(point)-width * scale) / 2,
            box.top.in(point) + (box.height.in(point)-height * scale) / 2, width * scale, height * scale};
}

struct Reading {
    const std::string& bytes;
    std::size_t at = 0;
};

cairo_status_t read_some(void* closure, unsigned char* data, unsigned int length) {
    auto& reading = *static_cast<Reading*>(closure);
    if (reading.bytes.size() - reading.at < length) return CAIRO_STATUS_READ_ERROR;
    std::memcpy(data, reading.bytes.data() + reading.at, length);
    reading.at += length;
    return CAIRO_STATUS_SUCCESS;
}

void show_pixels(cairo_t* cairo, cairo_surface_t* pixels, const Place& place, Scaling scaling) {
    const SavedState saved(cairo);
    cairo_translate(cairo, place.left, place.top);
    cairo_scale(cairo, place.width / cairo_image_surface_get_width(pixels),
                place.height / cairo_image_surface_get_height(pixels));
    cairo_set_source_surface(cairo, pixels, 0, 0);
    cairo_pattern_set_filter(cairo_get_source(cairo), scaling == Scaling::Nearest ? CAIRO_FILTER_NEAREST : CAIRO_FILTER_BEST);
    // Trap: cairo_paint of a picture inside a tag makes Cairo 1.16 lose count of its tags; a filled rectangle does not.
    cairo_rectangle(cairo, 0, 0, cairo_image_surface_get_width(pixels), cairo_image_surface_get_height(pixels));
    cairo_fill(cairo);
}

void show_png(cairo_t* cairo, const frame::Image& image, Scaling scaling) {
    const std::string png = lean_png(*image.bytes);
    Reading reading{png};
    const Surface pixels(cairo_image_surface_create_from_png_stream(read_some, &reading));
    if (cairo_surface_status(pixels.get()) != CAIRO_STATUS_SUCCESS)
        throw PictureRefused("a PNG picture whose pixels are damaged", "a sound PNG picture");
    const int width = cairo_image_surface_get_width(pixels.get()), height = cairo_image_surface_get_height(pixels.get());
    show_pixels(cairo, pixels.get(), fitted(image.box, width, height), scaling);
}

void render(RsvgHandle* svg, cairo_t* cairo, const Place& place) {
    const RsvgRectangle viewport{place.left, place.top, place.width, place.height};
    GError* error = nullptr;
    if (svg_library().render_document(svg, cairo, &viewport, &error)) return;
    const std::string why = error ? error->message : "unknown reason";
    g_clear_error(&error);
    throw no_svg("an SVG picture that cannot be drawn: " + why);
}

/// Width and height in any one unit; only their ratio counts.
std::pair<double, double> svg_size(RsvgHandle* svg) {
    const auto is_size = [](double width, double height) {
        constexpr double most_times = 1000;  // one side of the other
        return width > 0 && height > 0 && width / height < most_times && height / width < most_times;
    };
    double width = 0, height = 0;
    if (svg_library().get_intrinsic_size_in_pixels(svg, &width, &height) && is_size(width, height)) return {width, height};
    gboolean has_width = FALSE, has_height = FALSE, has_box = FALSE;
    RsvgLength wide{}, high{};
    RsvgRectangle box{};
    svg_library().get_intrinsic_dimensions(svg, &has_width, &wide, &has_height, &high, &has_box, &box);
    if (has_box && is_size(box.width, box.height)) return {box.width, box.height};
    throw no_svg("an SVG picture that has neither a size nor a view box, or is a thousand times as wide as high");
}

void show_svg(cairo_t* cairo, const frame::Image& image, Scaling scaling) {
    const SvgScan scan = scan_svg(*image.bytes);
    GError* error = nullptr;
    const auto* data = reinterpret_cast<const guint8*>(image.bytes->data());
    const Svg svg(svg_library().new_from_data(data, image.bytes->size(), &error));
    if (!svg) {
        const std::string why = error ? error->message : "unknown reason";
        g_clear_error(&error);
        throw no_svg("an SVG picture that cannot be read: " + why);
    }
    svg_library().set_dpi(svg.get(), 96.0);
    const auto [width, height] = svg_size(svg.get());
    const Place place = fitted(image.box, width, height);
    if (!scan.needs_pixels) {
        const SavedState saved(cairo);
        render(svg.get(), cairo, place);
        return;
    }
    const auto pixels_for = [](double points) {
        return std::clamp(static_cast<int>(std::ceil(points * pixels_per_point)), 1, most_pixels_a_side);
    };
    const Surface pixels(cairo_image_surface_create(CAIRO_FORMAT_ARGB32, pixels_for(place.width), pixels_for(place.height)));
    const Context context(cairo_create(pixels.get()));
    render(svg.get(), context.get(), {0, 0, double(pixels_for(place.width)), double(pixels_for(place.height))});
    cairo_surface_flush(pixels.get());
    show_pixels(cairo, pixels.get(), place, scaling);
}

}  // namespace

void show_picture(cairo_t* cairo, const frame::Image& image, Scaling scaling) {
    image.format == frame::Image::Format::Png ? show_png(cairo, image, scaling) : show_svg(cairo, image, scaling);
}

std::optional<PictureRefused> picture_fault(const frame::Image& image) {
    const Surface pixels(cairo_image_surface_create(CAIRO_FORMAT_ARGB32, 1, 1));
    const Context context(cairo_create(pixels.get()));
    try {
        show_picture(context.get(), image, Scaling::Smooth);
        return std::nullopt;
    } catch (const PictureRefused& refused) {
        return refused;
    }
}

}  // namespace wayfolio::output
