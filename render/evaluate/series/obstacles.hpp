#pragma once
#include "evaluate/series/extremes.hpp"

/// Why the readings cannot support a parameter, as plain sentences; nothing where they can.
namespace wayfolio::evaluate {

using Obstacle = std::optional<NotEvaluated>;

/// Over the means of one direction.
Obstacle no_means(Targets targets, Approach approach);
/// Over the means of both directions, not necessarily at the same target.
Obstacle not_both_directions(Targets targets);
/// Over values that need both directions at one target (reversal, bidirectional mean).
Obstacle no_shared_target(Targets targets);
/// Over standard deviations of one direction: a maximum cannot be claimed over targets that have none.
/// @param unit the positions are named in
Obstacle no_spread(Targets targets, Approach approach, const PositionUnit& unit);
/// Over standard deviations of both directions.
Obstacle no_spread_both(Targets targets, const PositionUnit& unit);

}  // namespace wayfolio::evaluate
