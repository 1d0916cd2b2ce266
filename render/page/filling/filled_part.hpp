#pragma once
#include "page/filling/filling_text.hpp"

#include <cstddef>
#include <exception>

/// Blocks in their places, one below the other.
namespace wayfolio::page {

/// A page as empty as that may end early: a closing rule counts as ink, and may hang below the last words.
inline constexpr double nearly_early = most_empty * 0.85;

/// A block that was placed.
struct PlacedBlock {
    const report::Block* block;
    std::size_t page;  ///< on which it begins, from 0 for the first of its part
    bool begins_page;  ///< no other stands above it there
    bool names_pages;  ///< to be placed again when the numbers of all pages are known
};

/// Blocks that begin a page whatever stands before them, placed in this order.
struct FilledPart {
    std::vector<PlacedBlock> blocks;
    Halves halves;
    std::vector<Draft> drafts;
    PageNumbers anchors;            ///< pages of the part
    std::ptrdiff_t early_ends = 0;  ///< pages but the last that are emptier than they may be
    std::exception_ptr failed;
};

/// Whether it may begin below another block. A first page, and what fills a page, stand alone.
bool may_begin_below(const report::Block& block);

/// Whether others may begin below it.
bool shares_its_end(const report::Block& block);

/// Whether a block begins below what stands on the page.
bool begins_here(const Composer& composer, const report::Block& block);

/// Places a block below the others if it begins there, else on a new page.
PlacedBlock place_block(Composer& composer, const report::Block& block);

/// Page numbers are known only when all is placed: pages on which one is named are filled again, with the same blocks.
/// @return whether the blocks kept to their pages: a number in a sentence may turn a line, and a line a page
bool name_pages(FilledPart& part, const Tools& tools, const PageNumbers& known);

}  // namespace wayfolio::page
