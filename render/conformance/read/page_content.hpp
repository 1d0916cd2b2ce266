#pragma once
#include "conformance/read/handle.hpp"
#include "unpack/stream_unpacker.hpp"

#include <compare>
#include <map>
#include <set>

namespace wayfolio::conformance {

/// One piece of numbered marked content.
struct MarkedContent {
    std::string tag;  ///< with its slash
    bool shows_text = false;
};

/// A glyph that is shown.
struct Shown {
    std::string font;  ///< resource name
    unsigned code;
    int mark;  ///< of the marked content around it; none: -1
    bool has_actual_text;  ///< said by marked content around it
    auto operator<=>(const Shown&) const = default;
};

/// What a page's content stream holds, as far as the rules ask.
struct PageContent {
    std::map<int, MarkedContent> marks;  ///< by number
    std::set<int> doubled;               ///< numbers that stand there twice
    std::set<Shown> shown;
    std::set<std::string> unknown;       ///< operators that there are not
    int untagged = 0;                    ///< operators that draw outside the structure and outside artifacts
    int nested_artifacts = 0;            ///< artifacts inside marked content of the structure or of an artifact, or the other way round
    int unbalanced = 0;                  ///< ends of marked content without a beginning, and beginnings without an end
    int deepest_state = 0;               ///< graphics states saved in each other
    bool cmyk = false;                   ///< a colour of four inks is set
};

/// @throws std::runtime_error as unpack::StreamUnpacker::unpacked
PageContent content_of(Handle page, unpack::StreamUnpacker& unpacker);

/// A page's resources of one kind, e.g. "/Font"; an empty dictionary where there are none.
Handle resources_of(Handle page, const char* kind);

}  // namespace wayfolio::conformance
