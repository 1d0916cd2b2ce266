#pragma once
#include "page/composer.hpp"
#include "report/model/model.hpp"

#include <memory>
#include <vector>

/// Text from further behind that fills the rest of a page.
namespace wayfolio::page {

using Blocks = std::vector<const report::Block*>;

/// Of blocks that were parted. Parts point to them, wherever the parts are moved to.
using Halves = std::vector<std::unique_ptr<const report::Block>>;

inline constexpr double most_empty = 0.25;      ///< no page but the last is emptier
inline constexpr double worth_filling = 0.12;   ///< what is emptier is worth filling by text from further behind

/// Where a block begins below what stands on the page, in the wide column and beside it. Tables of readings stand closer.
Paper below_all(const Composer& composer, const report::Block& block);

/// Takes text from those that wait: of texts that fit whole the first of those that fill most of the page together. Where none does, and
/// the page would end early, the first sections of one; its others stay among those that wait. Neither: null.
const report::Block* take_text(const Composer& composer, Blocks& waiting, Halves& halves);

/// Takes the first sections of the text that ends the report: the last resort of a page that would end early, for a chapter is parted by
/// it. The last section stays with the signatures. None fits: null.
const report::Block* take_from_end(const Composer& composer, Blocks& waiting, Halves& halves);

}  // namespace wayfolio::page
