#pragma once
#include "frame/frame.hpp"

#include <optional>
#include <string>
#include <vector>

namespace wayfolio::output {

/// What Cairo 1.16 cannot write into a structure element; kept in the order of cairo_tag_begin and zipped with the finished tree.
struct TagRecord {
    std::string type;         ///< structure type as Cairo writes it; "Private" is an artifact
    std::string alternative;  ///< figures
    frame::Scope scope = frame::Scope::None;
    int column_span = 1;
    std::optional<frame::Rect> box;  ///< figures; page coordinates, y down
    double page_height = 0;          ///< to turn `box` into PDF coordinates
    std::string continues;           ///< elements with the same key become one
    std::string description;         ///< of a link
};

}  // namespace wayfolio::output
