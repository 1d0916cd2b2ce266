#pragma once
#include "frame/frame.hpp"

#include <deque>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::output {

/// What an artifact is recorded as.
inline constexpr const char* artifact_tag = "Private";

/// The tag under which Cairo marks the content of a structure type or artifact; with_types_named gives it its own name. Cairo 1.16 knows no
/// artifacts, and makes an annotation of each Link, before it knows the pages that follow.
inline std::string marking_of(std::string_view type) { return std::string(type == "Link" ? "Reference" : type); }

/// One element or artifact as it was drawn, in the order in which they began: what the structure tree is made of.
struct TagRecord {
    std::string_view type;              ///< structure type, a literal; "Private" is an artifact
    std::optional<std::size_t> parent;  ///< the record of the enclosing element; none for the Document
    bool marked = true;                 ///< has marked content on its page; what holds other elements has none
    std::size_t page = 0;               ///< where it was begun, counted from 0
    frame::RareText alternative;        ///< of a figure; of a Span that stands for words
    frame::Scope scope = frame::Scope::None;
    int column_span = 1, row_span = 1;
    frame::Rare<frame::Rect> box;    ///< figures; page coordinates, y down
    double page_height = 0;          ///< to turn boxes into PDF coordinates
    frame::RareText continues;       ///< elements with the same key become one
    std::vector<frame::Link> links;  ///< of a Link: its areas
};

/// Hundreds of thousands in a long table: a deque never holds them twice.
using TagRecords = std::deque<TagRecord>;

}  // namespace wayfolio::output
