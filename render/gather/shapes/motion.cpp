#include "gather/shapes/motion.hpp"

namespace wayfolio::gather {

MotionRuns::Step MotionRuns::next(double position) {
    const auto begin = [&](std::optional<Approach> approach) {
        approach_ = directions_.size() == 1 ? directions_.front() : approach;
        return Step{++run_, true, approach_};
    };
    const std::optional<double> last = last_;
    last_ = position;
    if (!last || *last == position) return begin(std::nullopt);
    const Approach way = position > *last ? Approach::Positive : Approach::Negative;
    if (directions_.size() == 1 && way != directions_.front()) return begin(std::nullopt);
    if (directions_.size() == 2 && approach_ && *approach_ != way) return begin(way);
    approach_ = way;
    return {run_, false, approach_};
}

}  // namespace wayfolio::gather
