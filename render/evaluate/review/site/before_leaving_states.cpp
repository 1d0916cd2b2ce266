#include "evaluate/review/hints.hpp"
#include "evaluate/review/readings/misread.hpp"
#include "evaluate/review/site/before_leaving.hpp"
#include "evaluate/series/targets.hpp"
#include "units/number_text.hpp"

#include <fmt/format.h>
#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace wayfolio::evaluate {
namespace {

/// Two series of one error on one line, in different states of the machine: as found and as left, mostly.
struct TwoStates {
    const document::Document& document;
    const Evaluation& evaluation;
    std::size_t earlier, later;  ///< places in the document
    std::vector<BeforeLeaving>& lines;

    [[nodiscard]] const document::Series& source(std::size_t place) const { return document.series[place]; }
    [[nodiscard]] const SeriesEvaluation& evaluated(std::size_t place) const { return evaluation.series[place]; }
    [[nodiscard]] std::string where(const char* part = "") const {
        return fmt::format("series {} and {} (/series/{}{})", source(earlier).id, source(later).id, later, part);
    }
    void add(FindingCode code, std::string what, std::string where, std::string sure, std::string act) const {
        lines.push_back({code, std::move(what), std::move(where), std::move(sure), std::move(act)});
    }
};

void add_differing_limits(const TwoStates& two) {
    for (const auto& before : two.source(two.earlier).tolerances)
        for (const auto& after : two.source(two.later).tolerances) {
            if (before.parameter != after.parameter || before.length_mm != after.length_mm ||
                before.limit.dimension() != after.limit.dimension())
                continue;
            constexpr double rounding = 1e-6;  // of a limit that was converted
            const double a = in_base_unit(before.limit), b = in_base_unit(after.limit);
            if (std::abs(a - b) <= rounding * std::max(std::abs(a), std::abs(b))) continue;
            two.add(FindingCode::LimitsDiffer,
                    fmt::format("the limit on {} differs between the states: {} {} {} and {} {} {}", before.parameter,
                                units::shortest(before.limit.in(before.unit)), before.unit.symbol, two.source(two.earlier).state,
                                units::shortest(after.limit.in(after.unit)), after.unit.symbol, two.source(two.later).state),
                    two.where("/tolerances"), "certain", "compare both with the order");
        }
}

std::vector<double> places_of(const SeriesEvaluation& series) {
    std::vector<double> places;
    for (const auto& target : series.targets) places.push_back(target.position.in(natural_unit(target.position.dimension())));
    return places;
}

/// Whether both were measured at the same targets; tells it where not.
bool same_targets(const TwoStates& two) {
    const auto before = places_of(two.evaluated(two.earlier)), after = places_of(two.evaluated(two.later));
    if (before.size() < 2 || after.size() < 2) return false;
    const double span = std::max(before.back() - before.front(), after.back() - after.front());
    constexpr double moved = 0.01, dust = 1e-9;  // of the travel: more is another travel, less another target
    const auto natural = natural_unit(two.evaluated(two.later).position_unit.dimension);
    const auto range = [&](const std::vector<double>& places) {
        return fmt::format("{} to {} {}", units::shortest(places.front()), units::shortest(places.back()), natural.symbol);
    };
    if (std::abs(before.front() - after.front()) > moved * span || std::abs(before.back() - after.back()) > moved * span) {
        two.add(FindingCode::StatesOverDifferentTravel,
                fmt::format("the states were measured over different travel: {} and {}", range(before), range(after)),
                two.where("/targets"), "certain",
                "measure the later state over the travel of the earlier one, or compare only what both cover");
        return false;
    }
    const bool same = before.size() == after.size() && std::equal(before.begin(), before.end(), after.begin(), [&](double a, double b) {
                          return std::abs(a - b) <= dust * span;
                      });
    if (!same)
        two.add(FindingCode::StatesOverDifferentTargets,
                fmt::format("the states were measured at different targets ({} and {}): changes at single targets cannot be given",
                            before.size(), after.size()),
                two.where("/targets"), "certain", "measure the later state at the targets of the earlier one");
    return same;
}

double correlation(const std::vector<double>& a, const std::vector<double>& b) {
    const double norm =
        std::sqrt(std::inner_product(a.begin(), a.end(), a.begin(), 0.0) * std::inner_product(b.begin(), b.end(), b.begin(), 0.0));
    return norm > 0 ? std::inner_product(a.begin(), a.end(), b.begin(), 0.0) / norm : 0;
}

/// What both states say at the targets that have it in both.
struct Profiles {
    std::vector<double> before, after;
};

template <class Get>
Profiles profiles_of(const TwoStates& two, Get&& get) {
    Profiles profiles;
    const auto &before = two.evaluated(two.earlier).targets, &after = two.evaluated(two.later).targets;
    for (std::size_t i = 0; i < before.size(); ++i) {
        const std::optional<Deviation> a = get(before[i]), b = get(after[i]);
        if (!a || !b) continue;
        profiles.before.push_back(in_base_unit(*a));
        profiles.after.push_back(in_base_unit(*b));
    }
    return profiles;
}

void take_level_out(std::vector<double>& values) {
    const double level = std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
    for (double& value : values) value -= level;
}

constexpr std::size_t fewest_common_targets = 5;
/// One shape is the other one turned: correlated at least so, and of the same size within so much. By choice.
constexpr double turned_shape = -0.9, same_size = 0.3;

bool add_turned_sign(const TwoStates& two) {
    auto [before, after] = profiles_of(two, [](const auto& target) { return target.trace_mean(); });
    if (before.size() < fewest_common_targets) return false;
    take_level_out(before);
    take_level_out(after);
    const double r = correlation(before, after), nu = static_cast<double>(before.size()) - 2;
    const double squares = std::inner_product(before.begin(), before.end(), before.begin(), 0.0);
    if (r > turned_shape || !(squares > 0)) return false;
    const double size = std::inner_product(before.begin(), before.end(), after.begin(), 0.0) / squares;
    const double p = r <= -1 ? 0 : boost::math::cdf(boost::math::complement(boost::math::students_t(nu), -r * std::sqrt(nu / (1 - r * r))));
    if (std::abs(size + 1) > same_size || p >= repeat_level) return false;
    two.add(FindingCode::SignTurned,
            fmt::format("the error {} is that {} turned over: {:.2f} times its shape", two.source(two.later).state,
                        two.source(two.earlier).state, size),
            two.where(), fmt::format("correlation {:.3f} over {} targets: p = {:.1e}, level {:.1e}", r, before.size(), p, repeat_level),
            "look for a turned sign in one state, or a correction that was entered twice");
    return true;
}

void add_turned_reversal(const TwoStates& two) {
    const auto [before, after] = profiles_of(two, [](const auto& target) { return target.reversal; });
    const auto first = pooled_spread(two.evaluated(two.earlier)), second = pooled_spread(two.evaluated(two.later));
    if (before.size() < fewest_common_targets || !first || !second) return;
    const auto mean_of = [](const std::vector<double>& values) {
        return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
    };
    const double a = mean_of(before), b = mean_of(after), m = static_cast<double>(before.size());
    // Of the mean of m differences of means of n readings.
    const auto p_of = [&](double value, const PooledSpread& spread) {
        const double n = spread.nu / (2 * m) + 1, t = std::abs(value) / (spread.s * std::sqrt(2 / (n * m)));
        return 2 * boost::math::cdf(boost::math::complement(boost::math::students_t(spread.nu), t));
    };
    const double p = std::max(p_of(a, *first), p_of(b, *second));
    if (!(a * b < 0) || std::abs(b / a + 1) > same_size || p >= repeat_level) return;
    two.add(FindingCode::ApproachMixedUp,
            fmt::format("the reversal {} is that {} turned over: {:+.3g} and {:+.3g} {} on average", two.source(two.later).state,
                        two.source(two.earlier).state,
                        Deviation(b, base_unit(two.evaluated(two.later).unit.dimension)).in(two.evaluated(two.later).unit),
                        Deviation(a, base_unit(two.evaluated(two.later).unit.dimension)).in(two.evaluated(two.later).unit),
                        two.evaluated(two.later).unit.symbol),
            two.where("/runs"), fmt::format("t test of both means: p = {:.1e}, level {:.1e}", p, repeat_level),
            "look for approaches that are swapped in all runs of one state, or a reversal correction that was entered twice");
}

/// A run of the later state that equals one of the earlier state.
void add_runs_of_earlier(const TwoStates& two) {
    const auto before = run_residuals(two.source(two.earlier), two.evaluated(two.earlier)),
               after = run_residuals(two.source(two.later), two.evaluated(two.later));
    const double by_chance = resolution_of(two.source(two.later), after).same_by_chance();
    for (const auto& run : after)
        for (const auto& old : before) {
            if (run.readings.size() < fewest_common_targets || run.readings != old.readings) continue;
            const double p =
                static_cast<double>(before.size() * after.size()) * std::pow(by_chance, static_cast<double>(run.readings.size()));
            if (p >= repeat_level) continue;
            two.add(FindingCode::RunCopied,
                    fmt::format("all {} readings equal those of {} of series {}: one run looks copied from the other", run.readings.size(),
                                run_name(two.source(two.earlier), old.run), two.source(two.earlier).id),
                    run_place(two.source(two.later), two.later, run.run),
                    fmt::format("readings alike to the last digit by chance: p = {:.1e}, level {:.1e}", p, repeat_level),
                    "take the run from the instrument's own record, or measure it again");
        }
}

bool comparable(const document::Series& a, const document::Series& b) {
    const bool one_line = !a.measurement_line || !b.measurement_line || *a.measurement_line == *b.measurement_line;
    return a.error == b.error && a.state != b.state && !a.state.empty() && !b.state.empty() && one_line &&
           a.steps_base_mm.has_value() == b.steps_base_mm.has_value();
}

}  // namespace

void add_state_concerns(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation) {
    const std::size_t count = std::min(document.series.size(), evaluation.series.size());
    for (std::size_t later = 0; later < count; ++later)
        for (std::size_t earlier = 0; earlier < later; ++earlier) {
            if (!comparable(document.series[earlier], document.series[later])) continue;
            const TwoStates two{document, evaluation, earlier, later, lines};
            add_differing_limits(two);
            if (two.evaluated(earlier).source != Source::Runs || two.evaluated(later).source != Source::Runs || !same_targets(two))
                continue;
            add_runs_of_earlier(two);
            if (!add_turned_sign(two)) add_turned_reversal(two);
        }
}

}  // namespace wayfolio::evaluate
