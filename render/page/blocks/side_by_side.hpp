#pragma once
#include "page/composer.hpp"
#include "report/model/model.hpp"

namespace wayfolio::page {

/// A readings table with one line a target: both approaches beside each other, across the whole page. A title in place of an opening, and
/// beneath what the readings are, so that two series of 27 targets stand on one page.
/// @returns false, with nothing placed, where one approach is missing or the numbers have no room so
bool place_side_by_side(Composer& composer, const report::Readings& block);

/// Whether it is placed so.
bool stands_side_by_side(const Composer& composer, const report::Readings& block);

}  // namespace wayfolio::page
