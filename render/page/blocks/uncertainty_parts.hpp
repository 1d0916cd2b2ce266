#pragma once
#include "page/composer.hpp"
#include "report/model/uncertainty_block.hpp"

/// The tables of the page of uncertainties. Each begins at composer.y and leaves it where the next thing may begin.
namespace wayfolio::page {

/// Small grey notes over the whole width, one below the other.
void place_small_notes(Composer& composer, const std::vector<Text>& notes, const std::string& label);
/// Contributors with the swatches of their parts; rows go on over pages, at least two of them together.
void place_contributors(Composer& composer, const report::ContributorTable& table, const std::string& label);
/// What the rule can come to. On one page.
void place_outcomes(Composer& composer, const std::vector<report::OutcomeRow>& rows, const std::string& label);

}  // namespace wayfolio::page
