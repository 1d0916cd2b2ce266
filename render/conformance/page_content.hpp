#pragma once
#include "conformance/checked_file.hpp"

#include <set>

namespace wayfolio::conformance {

/// What a page's content stream holds, as far as the rules ask.
struct PageContent {
    std::set<int> marks;            ///< numbers of marked content
    std::set<int> doubled;          ///< numbers that stand there twice
    std::set<std::string> fonts;    ///< resource names of fonts that show text
    int untagged = 0;               ///< operators that draw outside the structure and outside artifacts
    int texts = 0;                  ///< strings shown
    int missing_glyphs = 0;         ///< glyph 0 shown
    bool cmyk = false;              ///< a colour of four inks is set
};

PageContent content_of(Handle page);

}  // namespace wayfolio::conformance
