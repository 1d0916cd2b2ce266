#include "evaluate/review/site/before_leaving.hpp"
#include "evaluate/series/targets.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace wayfolio::evaluate {
namespace {

/// A value against its limit.
struct Held {
    const Decision* decision;
    double powers;  ///< decimal logarithm of value / limit
};

std::vector<Held> held_in(const Evaluation& evaluation, const std::string& series) {
    std::vector<Held> all;
    for (const Decision& decision : evaluation.decisions) {
        if (decision.series != series || !decision.value || decision.value->dimension() != decision.limit.dimension()) continue;
        const double value = std::abs(in_base_unit(*decision.value)), limit = std::abs(in_base_unit(decision.limit));
        if (value > 0 && limit > 0) all.push_back({&decision, std::log10(value / limit)});
    }
    return all;
}

double middle_of(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const std::size_t n = values.size();
    return n % 2 == 1 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
}

/// Five times over a limit, or fifty times below it, is farther than machines and limits lie apart by themselves; a machine may well be
/// ten times better than its limits. Common practice, no source.
const double far_over = std::log10(5.0), far_below = std::log10(50.0);
/// Where all limits of a series, or all but one, agree with each other, a factor of ten stands out: within so much of the logarithm.
constexpr double limits_agree = 0.3;
constexpr std::size_t fewest_limits = 3;

bool is_far(double powers) { return powers >= far_over || powers <= -far_below; }

/// The power of ten that a limit is off against the others of its series, which agree among themselves; 0 where it is none.
int power_against_others(const std::vector<Held>& all, std::size_t one) {
    std::vector<double> others;
    for (std::size_t i = 0; i < all.size(); ++i)
        if (i != one) others.push_back(all[i].powers);
    if (others.size() + 1 < fewest_limits) return 0;
    const double middle = middle_of(others);
    const bool agree = std::all_of(others.begin(), others.end(), [&](double powers) { return std::abs(powers - middle) < limits_agree; });
    const double apart = all[one].powers - middle;
    const int power = static_cast<int>(std::lround(apart));
    return agree && power != 0 && std::abs(power) <= 3 && std::abs(apart - power) < limits_agree ? power : 0;
}

std::string times_words(int power) {
    constexpr int largest = 6;
    const int size = std::clamp(std::abs(power), 1, largest);
    return fmt::format("{}", std::llround(std::pow(10, size)));
}

void tell(std::vector<BeforeLeaving>& lines, const Evaluation& evaluation, const Held& held, int power, const std::string& sure) {
    const Decision& decision = *held.decision;
    const auto series =
        std::find_if(evaluation.series.begin(), evaluation.series.end(), [&](const auto& entry) { return entry.id == decision.series; });
    const double ratio = std::pow(10, held.powers);
    lines.push_back(
        {FindingCode::ValueOffByFactor,
         fmt::format("{} of series {} is {:.3g} times its limit of {:.6g} {}: near a factor of {}", decision.parameter, decision.series,
                     ratio, decision.limit.in(decision.unit), decision.unit.symbol, (power < 0 ? "1/" : "") + times_words(power)),
         fmt::format("series {} (/series/{}/tolerances)", decision.series, series - evaluation.series.begin()), sure,
         "compare the units of readings and of the limit with the instrument and the order"});
}

}  // namespace

void add_limit_concerns(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation) {
    for (const auto& series : document.series) {
        const auto all = held_in(evaluation, series.id);
        if (all.empty()) continue;
        std::vector<double> powers;
        for (const auto& held : all) powers.push_back(held.powers);
        const double middle = middle_of(powers);
        const bool all_a_tenth = all.size() >= fewest_limits &&
                                 std::all_of(powers.begin(), powers.end(), [](double p) { return std::abs(p + 1) < limits_agree; });
        for (std::size_t i = 0; i < all.size(); ++i) {
            const int against_others = power_against_others(all, i);
            if (is_far(all[i].powers)) {
                // One line for the series, where its values are all off: the readings are.
                const bool with_all = all.size() > 1 && is_far(middle) && against_others == 0;
                if (with_all && i > 0) continue;
                const int power = static_cast<int>(std::lround(all[i].powers));
                tell(lines, evaluation, all[i], power == 0 ? 1 : power,
                     with_all ? fmt::format("so are the other {} limits of the series; common practice, no source", all.size() - 1)
                              : "more than 5 times over or 50 times below; common practice, no source");
            } else if (against_others != 0) {
                tell(lines, evaluation, all[i], against_others,
                     "the other limits of the series agree with each other; common practice, no source");
            } else if (all_a_tenth && i == 0) {
                tell(lines, evaluation, all[i], -1,
                     fmt::format("so are all {} values of the series; common practice, no source", all.size()));
            }
        }
    }
}

}  // namespace wayfolio::evaluate
