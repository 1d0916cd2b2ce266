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

/// The title of a readings table with its unit; composer.y goes to the heads.
/// @return whether the words on all readings stand at its right
bool place_readings_title(Composer& composer, const report::Readings& block);
/// The marker of an approach with the words for it.
Group said_marker(const Tools& tools, report::Approach approach, Point at, const std::string& words);

}  // namespace wayfolio::page
