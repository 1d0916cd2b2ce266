#include "evaluate/numbers/trace/passes.hpp"

#include <cmath>

namespace wayfolio::evaluate {

using document::Approach;

std::optional<Stretch> Passes::next(double x, double y) {
    if (!front_) {
        front_ = Front{x, y};
        return std::nullopt;
    }
    const double step = x - front_->x;
    const double onwards = approach_ == Approach::Negative ? -step : step;
    const bool goes_on = approach_ && onwards > 0, turns = approach_ ? onwards < -turn_ : std::abs(step) > turn_;
    if (!goes_on && !turns) return std::nullopt;
    if (turns) approach_ = step > 0 ? Approach::Positive : Approach::Negative;
    const Stretch stretch{*approach_, turns, front_->x, front_->y, x, y};
    front_ = Front{x, y};
    return stretch;
}

}  // namespace wayfolio::evaluate
