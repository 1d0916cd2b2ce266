#include "evaluate/trace/passed_targets.hpp"

#include "evaluate/series/targets.hpp"
#include "evaluate/trace/plain_numbers.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace wayfolio::evaluate {

PassedTargets::PassedTargets(const document::Series& series) : dimension_(series.unit.dimension) {
    for (const document::Target& target : series.targets) targets_.push_back({&target, plain_place(target.position)});
    std::ranges::sort(targets_, {}, &Target::x);
}

/// A target belongs to the stretch that reaches it. The sample that a pass begins with was reached the other way, and says nothing of how
/// this pass approaches what lies before its next sample.
void PassedTargets::pass(const Stretch& stretch, double low, double high) {
    auto target = std::ranges::lower_bound(targets_, low, {}, &Target::x);
    gap_from_ = target == targets_.begin() ? -HUGE_VAL : std::prev(target)->x;
    gap_to_ = target == targets_.end() ? HUGE_VAL : target->x;
    for (; target != targets_.end() && target->x <= high; ++target)
        if (target->x == stretch.to_x || (target->x != stretch.from_x && !stretch.begins_pass))
            target->passes[stretch.approach].add(stretch.value_at(target->x));
}

std::vector<TraceTarget> PassedTargets::targets() const {
    const DeviationUnit unit = base_unit(dimension_);
    std::vector<TraceTarget> passed;
    for (const Target& from : targets_) {
        TraceTarget target{.position = from.target->position, .written = from.target->written};
        for (const Approach approach : {Approach::Positive, Approach::Negative}) {
            const RunningStatistics& passes = from.passes[approach];
            auto& into = target.one_way[approach];
            into.n = passes.count();
            if (into.n > 0) into.mean = Deviation(passes.mean(), unit);
            if (into.n > 1) into.s = Deviation(passes.standard_deviation(), unit);
        }
        const auto& [positive, negative] = target.one_way;
        if (positive.mean && negative.mean) target.reversal = *positive.mean - *negative.mean;
        if (positive.n + negative.n > 0) passed.push_back(target);
    }
    return passed;
}

}  // namespace wayfolio::evaluate
