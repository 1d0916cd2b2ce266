#include "compare/changes.hpp"


#include <algorithm>

namespace wayfolio::compare {

namespace {

bool same_targets(const document::Series& was, const document::Series& now) {
    return std::ranges::equal(was.targets, now.targets,
                              [](const document::Target& a, const document::Target& b) { return same_place(a.position, b.position); });
}

bool same_runs_planned(const document::Series& was, const document::Series& now) {
    return std::ranges::equal(was.runs, now.runs, [](const document::Run& a, const document::Run& b) { return a.approach == b.approach; });
}

bool same_traces(const document::Series& was, const document::Series& now) {
    if (was.trace.has_value() != now.trace.has_value()) return false;
    if (was.trace && (was.trace->many || now.trace->many))  // too many to be set side by side: the file tells
        return was.trace->many && now.trace->many && was.trace->many->sha256 == now.trace->many->sha256 &&
               was.unit == now.unit && was.position_unit == now.position_unit && was.target_minus_actual == now.target_minus_actual;
    return !was.trace ||
           std::ranges::equal(was.trace->samples, now.trace->samples, [](const document::TraceSample& a, const document::TraceSample& b) {
               return same_place(a.position, b.position) && same_value(a.value, b.value);
           });
}

void compare_run(const document::Run& was, const document::Run& now, std::size_t targets, ReadingChanges& changes) {
    for (std::size_t target = 0; target < targets; ++target) {
        const auto before = was.deviations[target], after = now.deviations[target];
        const bool was_aside = was.exclusion(target) != nullptr, is_aside = now.exclusion(target) != nullptr;
        if (!same_value(before, after)) ++changes.other_values;
        if (before && after)
            changes.largest = std::max(changes.largest.value_or(units::abs(*after - *before)), units::abs(*after - *before));
        if (!was_aside && is_aside) ++changes.set_aside;
        if (was_aside && !is_aside) ++changes.taken_back;
    }
}

}  // namespace

ReadingChanges reading_changes(const document::Series& was, const document::Series& now) {
    ReadingChanges changes{.series = now.id, .unit = now.unit};
    changes.same_plan =
        was.unit.dimension == now.unit.dimension && same_targets(was, now) && same_runs_planned(was, now) && same_traces(was, now);
    if (!changes.same_plan) return changes;
    for (std::size_t run = 0; run < now.runs.size(); ++run) compare_run(was.runs[run], now.runs[run], now.targets.size(), changes);
    if (changes.other_values == 0) changes.largest.reset();
    return changes;
}

}  // namespace wayfolio::compare
