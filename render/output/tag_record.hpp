#pragma once
#include "frame/frame.hpp"

#include <optional>
#include <string>
#include <vector>

namespace wayfolio::output {

/// One tag as it was drawn, in the order of cairo_tag_begin: what the structure tree is made of. Kept beside Cairo's drawing, since
/// Cairo 1.16 can say only a part of it.
struct TagRecord {
    std::string type;         ///< structure type as Cairo writes it; "Private" is an artifact
    std::optional<std::size_t> parent;  ///< the record of the enclosing tag; none for the Document
    bool leaf = true;         ///< holds no tags; Cairo gives marked content to leaves only
    std::size_t page = 0;     ///< where it was begun, counted from 0
    std::string alternative;  ///< figures
    frame::Scope scope = frame::Scope::None;
    int column_span = 1;
    std::optional<frame::Rect> box;  ///< figures; page coordinates, y down
    double page_height = 0;          ///< to turn `box` into PDF coordinates
    std::string continues;           ///< elements with the same key become one
    std::string description;         ///< of a link
};

}  // namespace wayfolio::output
