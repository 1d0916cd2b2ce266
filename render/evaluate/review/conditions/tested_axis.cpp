#include "evaluate/review/conditions/tested_axis.hpp"

#include "evaluate/series/new_series.hpp"
#include "evaluate/series/targets.hpp"
#include "units/number_text.hpp"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {
namespace {

std::size_t count_of_runs(const document::Series& series, Approach approach) {
    return static_cast<std::size_t>(
        std::count_if(series.runs.begin(), series.runs.end(), [&](const auto& run) { return run.approach == approach; }));
}

double longest_short_axis(const TestedAxis& axis) { return axis.rotary ? 360.0 : 2000.0; }

}  // namespace

std::string TestedAxis::text(double amount) const {
    constexpr int most = 3;
    const double shown = amount / written.in_natural;
    const int decimals = units::decimals_needed(std::round(shown * 1000) / 1000, most);
    return units::number(shown, decimals) + (rotary ? "°" : fmt::format("{}{}", units::thin_space, written.symbol));
}

TestedAxis tested_axis(const document::Document& document, const document::Series& series, Targets targets) {
    const bool rotary = series.error.axis_is_rotary();
    const auto& natural = natural_unit(rotary ? units::Dimension::Angle : units::Dimension::Length);
    TestedAxis tested{
        .rotary = rotary,
        .written = series.position_unit,
        .from = targets.front().position.in(natural),
        .to = targets.back().position.in(natural),
        .first = targets.front().position.in(natural),
        .last = targets.back().position.in(natural),
        .targets = targets.size(),
        .counted = !series.runs.empty(),
        .positive = count_of_runs(series, Approach::Positive),
        .negative = count_of_runs(series, Approach::Negative),
        .least = targets.front().one_way.positive.n,
        .standard = std::string(standard_name(document.evaluation.standard.value_or(document::Standard::Iso230_2_2014))),
        .agreed = document.evaluation.agreed};
    for (const auto& target : targets) tested.least = std::min({tested.least, target.one_way.positive.n, target.one_way.negative.n});
    const auto* axis = document::find_axis(document, series.error.axis);
    if (axis != nullptr && axis->travel) {
        const double from = axis->travel->from.in(natural), to = axis->travel->to.in(natural);
        tested.from = std::min(from, to);
        tested.to = std::max(from, to);
    }
    return tested;
}

bool is_additional_test(const TestedAxis& axis) {
    const double limit = longest_short_axis(axis);
    return axis.travel() > limit && axis.measured() <= limit && !axis.one_run_each_way();
}

bool is_long(const TestedAxis& axis) { return axis.travel() > longest_short_axis(axis) && !is_additional_test(axis); }

}  // namespace wayfolio::evaluate
