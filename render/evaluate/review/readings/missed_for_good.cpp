#include "evaluate/review/readings/fault_tests.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {
namespace {

/// A step of all readings from one on: how well it fits, as readings are added to those after it.
class StepForGood {
public:
    explicit StepForGood(const Runs& runs) : members_(sharing(runs)), after_(members_.size()) {}

    void add(const RunResiduals& run, std::size_t i) {
        const double n = static_cast<double>(members_[run.ranks[i]][run.approach]);
        double& after = after_[run.ranks[i]][run.approach];
        length_ += (after + 1) * (n - after - 1) / n - after * (n - after) / n;
        after += 1;
        along_ += run.residuals[i];
    }
    [[nodiscard]] double squares() const { return length_ > 1e-9 ? along_ * along_ / length_ : 0; }
    [[nodiscard]] double size() const { return length_ > 1e-9 ? along_ / length_ : 0; }

private:
    Sharing members_;
    std::vector<ByApproach<double>> after_;
    double along_ = 0, length_ = 0;
};

struct StepPlace {
    std::size_t order = 0, from = 0;  ///< place in the order of time; first reading that is off, in the order of travel
    double squares = 0, by = 0;
};

/// The best place of a step within the run at `q` in time, or at its beginning (`from` 0).
StepPlace best_within(const Runs& runs, const std::vector<std::size_t>& order, std::size_t q) {
    StepForGood step(runs);
    for (std::size_t later = q + 1; later < order.size(); ++later)
        for (std::size_t i = 0; i < runs[order[later]].places.size(); ++i) step.add(runs[order[later]], i);
    const RunResiduals& run = runs[order[q]];
    const auto way = travelled(run);
    StepPlace best;
    for (std::size_t from = way.size(); from-- > 0;) {
        step.add(run, way[from]);
        if (step.squares() > best.squares) best = {q, from, step.squares(), step.size()};
    }
    return best;
}

}  // namespace

std::optional<Tried<MissedCount>> count_missed_for_good(const Runs& runs, const ShiftedRun& shifted) {
    const auto order = in_time(runs);
    const auto at = std::find_if(order.begin(), order.end(), [&](std::size_t k) { return runs[k].run == shifted.run; });
    const auto first = static_cast<std::size_t>(at - order.begin());
    if (first >= order.size()) return std::nullopt;
    StepPlace best;
    double places = 0, total = 0, readings = 0;
    for (std::size_t q = first == 0 ? 0 : first - 1; q <= first; ++q) {
        const StepPlace here = best_within(runs, order, q);
        if (here.squares > best.squares) best = here;
        places += static_cast<double>(runs[order[q]].places.size());
    }
    for (const auto& run : runs) {
        readings += static_cast<double>(run.residuals.size());
        for (const double residual : run.residuals) total += residual * residual;
    }
    const double variance = std::max(total - best.squares, 1e-24 * total) / readings;
    // Likelihood of the better place against what so many places give by chance; four more for a name that must be right.
    constexpr double clearly = 4;
    if (best.from == 0 || (best.squares - shifted.squares) / variance < 2 * std::log(places) + clearly) return std::nullopt;
    const RunResiduals& run = runs[order[best.order]];
    std::vector<std::size_t> later;
    for (std::size_t q = best.order + 1; q < order.size(); ++q) later.push_back(runs[order[q]].run);
    std::sort(later.begin(), later.end());
    return Tried<MissedCount>{
        .hint = MissedCount{run.run, run.targets[travelled(run)[best.from]], best.by, /*stays=*/true, shifted.t, shifted.p},
        .squares = best.squares,
        .choices = places,
        .take_out = [later, number = run.run, from = best.from, by = best.by](Runs& changed) {
            for (auto& each : changed) {
                const bool whole = std::binary_search(later.begin(), later.end(), each.run);
                if (!whole && each.run != number) continue;
                const auto way = travelled(each);
                for (std::size_t i = whole ? 0 : from; i < way.size(); ++i) each.readings[way[i]] -= by;
            }
            centre(changed);
        }};
}

}  // namespace wayfolio::evaluate
