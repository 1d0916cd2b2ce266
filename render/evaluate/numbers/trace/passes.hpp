#pragma once
#include "document/document.hpp"

#include <cstddef>
#include <optional>

namespace wayfolio::evaluate {

/// A piece of the way: from one sample to the next one that goes on in the direction of its pass.
struct Stretch {
    document::Approach approach;
    bool begins_pass;
    double from_x, from_y, to_x, to_y;

    [[nodiscard]] double way() const { return to_x > from_x ? to_x - from_x : from_x - to_x; }
    /// On the straight line between the two samples.
    [[nodiscard]] double value_at(double x) const { return from_y + (to_y - from_y) * ((x - from_x) / (to_x - from_x)); }
};

/// Follows samples in the order of time and tells passes apart by the way the position goes. Only a sample that goes further than all
/// before it in its pass gives a stretch: an axis at rest, whose position trembles, makes no way. A pass ends where the position goes
/// back by more than `turn`.
class Passes {
public:
    explicit Passes(double turn) : turn_(turn) {}

    /// The stretch that ends at this sample, or nothing.
    std::optional<Stretch> next(double x, double y);

private:
    struct Front {
        double x, y;
    };
    double turn_;
    std::optional<Front> front_;  ///< the furthest sample of the pass; before the first pass the first sample
    std::optional<document::Approach> approach_;
};

}  // namespace wayfolio::evaluate
