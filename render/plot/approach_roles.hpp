#pragma once
#include "layouts/roles.hpp"
#include "report/model/deviation_plot.hpp"

namespace wayfolio::plot {

/// What one approach direction is drawn in. Each colour is a shade of the direction's own, but for the hatch's strokes.
struct ApproachRoles {
    layouts::PenRole mean, pale_mean, stem, edge;
    layouts::ColourRole label, run, tint, hatch;
};

constexpr ApproachRoles roles_of(report::Approach approach) {
    using layouts::ColourRole, layouts::PenRole;
    if (approach == report::Approach::Positive)
        return {PenRole::PositiveMean, PenRole::PalePositiveMean, PenRole::PositiveStem, PenRole::PositiveEdge,
                ColourRole::PositiveLabel, ColourRole::PositiveRun, ColourRole::PositiveTint, ColourRole::PositiveHatch};
    return {PenRole::NegativeMean, PenRole::PaleNegativeMean, PenRole::NegativeStem, PenRole::NegativeEdge,
            ColourRole::NegativeLabel, ColourRole::NegativeRun, ColourRole::NegativeTint, ColourRole::NegativeHatch};
}

}  // namespace wayfolio::plot
