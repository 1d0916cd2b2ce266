#pragma once
#include "input/json/object_reader.hpp"
#include "layouts/layout.hpp"

#include <optional>
#include <variant>

/// Private to this room: a layout while it is read.
namespace wayfolio::layouts {

/// A pen whose colour may still be a role, so that a layout which changes the colour changes the pens that use it.
struct PenDraft {
    Paper width;
    std::variant<ColourRole, Colour> colour;
    std::vector<Paper> dash;
};

/// What one file, and those it extends, have said so far. Later files say over earlier ones, entry by entry.
struct LayoutDraft {
    Layout layout;  ///< but for the values by role, of which some may still be missing
    ByRole<TypeRole, std::optional<TypeSize>> types;
    ByRole<ColourRole, std::optional<Colour>> colours;
    ByRole<PenRole, std::optional<PenDraft>> pens;
    ByRole<SizeRole, std::optional<Paper>> sizes;
};

/// Says what one layout file says over `draft`.
void read_over(LayoutDraft& draft, input::ObjectReader& reader);

/// Whether columns, lines and figures of a complete layout have room on each of its papers; each one that has none is a fault.
void check_room(const LayoutDraft& draft, input::ObjectReader& reader);

/// Whether letters and lines of a complete layout can be read on its paper, and the two approaches be told apart in grey.
void check_colours(const LayoutDraft& draft, input::ObjectReader& reader);

/// Whether what the house says has its place in the report.
void check_house(const LayoutDraft& draft, input::ObjectReader& reader);

}  // namespace wayfolio::layouts
