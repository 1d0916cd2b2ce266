#pragma once
#include "frame/frame.hpp"

#include <cairo-pdf.h>

#include <vector>

namespace wayfolio::output {

/// The document outline of a Cairo PDF surface, built from the bookmarks of page after page.
class Outline {
public:
    explicit Outline(cairo_surface_t* surface) : surface_(surface) {}

    /// @param page counted from 1
    void add(const std::vector<frame::Item>& items, int page);

private:
    void add(const frame::Bookmark& bookmark, int page);

    struct Open {
        int level, id;
    };
    cairo_surface_t* surface_;
    std::vector<Open> open_;  ///< the entries that a following deeper one belongs under
};

}  // namespace wayfolio::output
