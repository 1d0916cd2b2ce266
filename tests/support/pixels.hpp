#pragma once
#include "output/memory_stream.hpp"

#include <cstdlib>
#include <stdexcept>
#include <string>
#include <vector>

/// Pictures as numbers, to compare them.
namespace wayfolio::testing {

struct Pixels {
    int width = 0, height = 0;
    std::vector<unsigned char> red, green, blue;

    [[nodiscard]] int red_at(int x, int y) const { return red.at(static_cast<std::size_t>(y * width + x)); }
};

inline Pixels read_png(const std::string& path) {
    const output::Surface loaded(cairo_image_surface_create_from_png(path.c_str()));
    if (cairo_surface_status(loaded.get()) != CAIRO_STATUS_SUCCESS) throw std::runtime_error(path + " is no PNG");
    Pixels pixels{.width = cairo_image_surface_get_width(loaded.get()),
                  .height = cairo_image_surface_get_height(loaded.get()),
                  .red = {},
                  .green = {},
                  .blue = {}};
    const unsigned char* data = cairo_image_surface_get_data(loaded.get());
    const int stride = cairo_image_surface_get_stride(loaded.get());
    for (int y = 0; y < pixels.height; ++y)
        for (int x = 0; x < pixels.width; ++x) {
            const unsigned char* pixel = data + y * stride + 4 * x;  // blue, green, red on a little-endian machine
            pixels.blue.push_back(pixel[0]);
            pixels.green.push_back(pixel[1]);
            pixels.red.push_back(pixel[2]);
        }
    return pixels;
}

/// The top left part of a picture.
inline Pixels cut(const Pixels& whole, int width, int height) {
    if (whole.width < width || whole.height < height) throw std::runtime_error("the picture is smaller than the part asked for");
    Pixels part{.width = width, .height = height, .red = {}, .green = {}, .blue = {}};
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const auto at = static_cast<std::size_t>(y * whole.width + x);
            part.red.push_back(whole.red.at(at));
            part.green.push_back(whole.green.at(at));
            part.blue.push_back(whole.blue.at(at));
        }
    return part;
}

inline double share_of_pixels_that_differ(const Pixels& one, const Pixels& other, int by_more_than) {
    std::size_t different = 0;
    for (std::size_t i = 0; i < one.red.size(); ++i)
        if (std::abs(one.red[i] - other.red[i]) > by_more_than || std::abs(one.green[i] - other.green[i]) > by_more_than ||
            std::abs(one.blue[i] - other.blue[i]) > by_more_than)
            ++different;
    return static_cast<double>(different) / static_cast<double>(one.red.size());
}

}  // namespace wayfolio::testing
