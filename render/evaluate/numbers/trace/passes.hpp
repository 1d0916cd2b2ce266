#pragma once
#include "document/document.hpp"

#include <cmath>
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

    /// @param into the stretch that ends at this sample. It is written where it will stay, part by part: a copy of all just after would
    ///             have to wait for the parts.
    /// @returns whether there is one
    bool next(double x, double y, Stretch& into) {
        if (!front_) {
            front_ = Front{x, y};
            return false;
        }
        const double step = x - front_->x;
        const double onwards = approach_ == document::Approach::Negative ? -step : step;
        const bool goes_on = approach_ && onwards > 0, turns = approach_ ? onwards < -turn_ : std::abs(step) > turn_;
        if (!goes_on && !turns) return false;
        if (turns) approach_ = step > 0 ? document::Approach::Positive : document::Approach::Negative;
        into.approach = *approach_;
        into.begins_pass = turns;
        into.from_x = front_->x, into.from_y = front_->y;
        into.to_x = x, into.to_y = y;
        front_ = Front{x, y};
        return true;
    }

private:
    struct Front {
        double x, y;
    };
    double turn_;
    std::optional<Front> front_;  ///< the furthest sample of the pass; before the first pass the first sample
    std::optional<document::Approach> approach_;
};

}  // namespace wayfolio::evaluate
