#pragma once
#include "page/composer.hpp"
#include "report/model/model.hpp"

namespace wayfolio::page {

/// The readings of one run each way, and beside them on the same rows their curves; brackets, the largest and the smallest below.
/// @param block  with one_run
void place_one_run(Composer& composer, const report::Readings& block);

}  // namespace wayfolio::page
