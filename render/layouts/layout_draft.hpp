#pragma once
#include "input/json/object_reader.hpp"
#include "layouts/layout.hpp"

#include <map>
#include <string>

/// Private to this room: a layout while it is read.
namespace wayfolio::layouts {

/// A pen whose colour may still be the name of a colour role, so that a layout which changes the colour changes the pens that use it.
struct PenDraft {
    double width = 0;
    std::string colour;  ///< a colour role, or "#RRGGBB"
    std::vector<double> dash;
};

/// What one file, and those it extends, have said so far. Later files say over earlier ones, entry by entry.
struct LayoutDraft {
    Layout layout;
    std::map<std::string, PenDraft, std::less<>> pens;
};

/// Says what one layout file says over `draft`.
void read_over(LayoutDraft& draft, input::ObjectReader& reader);

/// "#RRGGBB" as a colour, or nothing.
std::optional<Colour> colour_of(std::string_view text);

}  // namespace wayfolio::layouts
