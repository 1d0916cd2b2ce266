#pragma once
#include "page/composer.hpp"

#include <functional>

namespace wayfolio::page {

/// How many of `lines` lines stand on this page from the composer's next baseline on. A short text is not broken; of a longer one no line
/// stands alone, neither here nor on the next page.
std::size_t lines_here(const Composer& composer, std::size_t lines, Paper leading);

/// How many of them must find room where it begins.
std::size_t least_lines(std::size_t lines);

/// The same behind a turn of the page: at least one, so that an end is reached on any paper.
std::size_t lines_on_next(const Composer& composer, std::size_t lines, Paper leading);

/// Places a text from the composer's next baseline on, over as many columns and pages as it needs. composer.y goes to its last baseline.
/// @param left where its lines begin, in the column that it begins in
/// @param add takes what stands on one page
/// @param turn goes on to the next page
void place_flowing(Composer& composer, const FlowingText& text, Paper left, frame::Role role, const std::function<void(Group)>& add,
          const std::function<void()>& turn);

}  // namespace wayfolio::page
