#pragma once
#include "document/document.hpp"

namespace wayfolio::evaluate {

/// What a measuring beam at an angle to the axis reads short over a length, µm: L (1 - cos theta), about L theta^2 / 2.
double cosine_error_um(double length_mm, double angle_rad);

/// Misalignment of the beam to an axis, from setup checks that give its offset at two positions.
struct CosineError {
    std::string axis;
    double angle_rad = 0;
    double length_mm = 0;  ///< the axis's travel, else the distance between the two positions
    double um = 0, um_per_m = 0;
    double least_um = 0;              ///< what the last written digits of the offsets leave open
    bool resolved = true;             ///< false: the offsets differ by no more than their last digits can tell
    std::vector<std::size_t> checks;  ///< places in setup.checks
};

/// One entry per axis with offsets at two positions or more, in the order of the checks. Checks that belong together carry one
/// name up to the last comma ("beam offset, near end" and "beam offset, far end"), a length unit and a position; of several, the
/// outermost two count. Pairs of different names on one axis (horizontal and vertical) add as the squares of their slopes.
std::vector<CosineError> evaluate_cosine(const document::Document& document);

}  // namespace wayfolio::evaluate
