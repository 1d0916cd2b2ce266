#pragma once
#include "page/composer.hpp"
#include "report/model/model.hpp"

/// One function for each kind of block: it goes on where the composer stands and fills as many pages as it needs.
namespace wayfolio::page {

void place(Composer& composer, const report::Answer& block);
void place(Composer& composer, const report::PositioningOpening& block);
void place(Composer& composer, const report::PolarOpening& block);
void place(Composer& composer, const report::Panels& block);
void place(Composer& composer, const report::SquarenessOpening& block);
void place(Composer& composer, const report::States& block);
void place(Composer& composer, const report::Readings& block);
void place(Composer& composer, const report::Sections& block);
void place(Composer& composer, const report::Compensation& block);
void place(Composer& composer, const report::EnvironmentOpening& block);
void place(Composer& composer, const report::LinesOpening& block);
void place(Composer& composer, const report::Uncertainty& block);

/// Panels may be as low as this share of their usual height where that keeps them on a page.
inline constexpr double least_panel_share = 0.7;

/// Lines for signatures, side by side, with their roles under them, row by row over as many pages as they need. composer.y goes to the last
/// baseline.
/// @param label of the block, for the head of a further page
void place_signatures(Composer& composer, const std::vector<report::Signature>& signatures, Paper line_at, const std::string& label);
/// Height that place_signatures takes below its first line; long names wrap.
Paper signatures_height(const Composer& composer, const std::vector<report::Signature>& signatures);

}  // namespace wayfolio::page
