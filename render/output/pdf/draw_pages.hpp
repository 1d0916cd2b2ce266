#pragma once
#include "output/pdf/tag_record.hpp"
#include "text/shaper.hpp"

#include <string>
#include <vector>

namespace wayfolio::output {

/// Some of a document's pages, one after the other, counted from 0; `end` is the first that is not one of them.
struct PageRange {
    std::size_t first, end;
};

/// What is drawn of a document, all of it or a part.
struct Drawing {
    const std::vector<frame::Frame>& pages;         ///< of the whole document
    const std::vector<frame::GlyphRun>& sample;     ///< of all its glyphs
    const text::Shaper& shaper;
};

/// Cairo's PDF of some pages, with what Cairo cannot say and what was made ready beside it.
struct DrawnPages {
    std::string bytes;                  ///< a page with the sample of all glyphs, which nobody is to see, then the pages
    std::vector<TagRecord> records;     ///< begins with the Document
    std::vector<std::string> contents;  ///< of each page, packed
};

/// @throws OutputFailed when Cairo reports an error
/// @throws std::logic_error for text directly in a table, row or list, or a link inside an artifact
DrawnPages draw_pages(const Drawing& drawing, PageRange range);

/// Two ranges of about equal weight that follow one another, or one of all where there is too little to share.
std::vector<PageRange> shared_out(const std::vector<frame::Frame>& pages);

}  // namespace wayfolio::output
