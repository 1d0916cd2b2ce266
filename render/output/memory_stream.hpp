#pragma once
#include "output/output.hpp"
#include "text/closes.hpp"

#include <cairo.h>

#include <string>

namespace wayfolio::output {

using Surface = text::Owned<cairo_surface_t, cairo_surface_destroy>;
using Context = text::Owned<cairo_t, cairo_destroy>;

/// A cairo_write_func_t that appends to the std::string given as closure. Trap: Cairo reports no error when its own file writing
/// meets a full disk, so everything goes to memory first.
inline cairo_status_t append_to_string(void* closure, const unsigned char* data, unsigned int length) {
    static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

inline void require(cairo_status_t status, const std::string& what) {
    if (status != CAIRO_STATUS_SUCCESS)
        throw files::OutputFailed(what, std::string("Cairo reports: ") + cairo_status_to_string(status), /*cannot_create=*/false);
}

}  // namespace wayfolio::output
