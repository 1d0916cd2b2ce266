#include "catalogue/history_words.hpp"

#include "input/iso_date.hpp"
#include "report/words/names.hpp"
#include "document/error_symbol.hpp"
#include "document/parameter.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

namespace wayfolio::catalogue {
namespace {

constexpr std::size_t fewest = 3;
constexpr double level = 0.05;  // of the two-sided test of the slope

double day_number(const HistoryPoint& point) { return static_cast<double>(input::iso_date(point.day)->days()); }

/// Common practice, no source: values speak of the same travel where the stretches that were measured share nine tenths of the longer.
bool same_travel(const HistoryPoint& one, const HistoryPoint& other) {
    if (!one.low || !other.low) return true;
    constexpr double share = 0.9;
    const double common = std::min(*one.high, *other.high) - std::max(*one.low, *other.low);
    return common >= share * std::max(*one.high - *one.low, *other.high - *other.low);
}

void set_apart(HistoryLine& line) {
    const HistoryPoint* latest = line.latest();
    if (!latest) return;
    const auto symbol = document::error_symbol(line.error);
    const char* unit = symbol && symbol->axis_is_rotary() ? "°" : "mm";
    const auto stretch = [&](const HistoryPoint& point) {
        return fmt::format("{} to {} {}", units::shortest(*point.low), units::shortest(*point.high), unit);
    };
    const HistoryPoint now = *latest;
    for (HistoryPoint& point : line.points)
        if (point.counts() && !same_travel(point, now))
            point.apart = fmt::format("measured over {}, the latest over {}", stretch(point), stretch(now));
}

struct Chosen {
    std::vector<std::size_t> points;
    bool since_adjustment;
};

/// A visit adjusted where it left another value than it found.
bool adjusted_at(const HistoryLine& line, std::size_t left) {
    const HistoryPoint& point = line.points[left];
    return point.counts() && is_as_left(point) && std::ranges::none_of(line.points, [&](const HistoryPoint& other) {
        return !is_as_left(other) && other.folder == point.folder && other.value == point.value;
    });
}

/// An adjustment breaks a trend: it is of the values between two of them, from the one that the first left on. Of these stretches the
/// latest with enough values speaks, else the latest; where no visit says what it found, all that they left.
Chosen chosen_points(const HistoryLine& line) {
    std::vector<std::size_t> left;
    std::vector<std::vector<std::size_t>> stretches(1);
    bool any_found = false;
    for (std::size_t i = 0; i < line.points.size(); ++i) {
        if (!line.points[i].counts()) continue;
        const bool as_left = is_as_left(line.points[i]);
        any_found = any_found || !as_left;
        if (as_left) left.push_back(i);
        if (adjusted_at(line, i)) stretches.emplace_back();
        if (adjusted_at(line, i) || !as_left) stretches.back().push_back(i);
    }
    if (!any_found) return {left, false};
    const auto enough = std::find_if(stretches.rbegin(), stretches.rend(), [](const auto& one) { return one.size() >= fewest; });
    const auto& chosen = enough != stretches.rend() ? *enough : stretches.back();
    return {chosen, !chosen.empty() && is_as_left(line.points[chosen.front()])};
}

std::string too_few(const HistoryLine& line, const std::vector<std::size_t>& points) {
    if (points.empty()) return "no value for a trend";
    const std::string state = report::state_words(line.points[points.front()].state);
    return fmt::format("{} {}{}; a trend needs {}", points.size(), points.size() == 1 ? "value" : "values",
                       state.empty() ? "" : " " + state, fewest);
}

/// Days of adjustments from the `first` of these points on.
std::vector<std::string> adjustments_from(const HistoryLine& line, std::size_t first) {
    std::vector<std::string> days;
    for (std::size_t i = first; i < line.points.size(); ++i)
        if (adjusted_at(line, i)) days.push_back(line.points[i].day);
    return days;
}

/// Years after `to` until the fitted line, `beyond` it by U, is at the limit; nothing where it goes elsewhere.
std::optional<double> years_to(const HistoryLine& line, const Drift& drift, double x_to, double limit, double U) {
    const double slope = drift.fit.slope;
    if (slope == 0 || (slope < 0 && !has_sign(line))) return std::nullopt;
    const double goal = slope > 0 ? limit - U : -(limit - U);
    const double years = std::max(0.0, (goal - drift.fit.intercept) / slope - x_to);
    return years <= drift.horizon ? std::optional(years) : std::nullopt;
}

evaluate::Evaluated<Drift> drift_of(const HistoryLine& line) {
    const Chosen chosen = chosen_points(line);
    if (chosen.points.size() < fewest) return evaluate::NotEvaluated{too_few(line, chosen.points)};
    std::vector<double> x, y;
    const HistoryPoint &first = line.points[chosen.points.front()], &last = line.points[chosen.points.back()];
    for (const std::size_t i : chosen.points) {
        x.push_back((day_number(line.points[i]) - day_number(first)) / days_of_year);
        y.push_back(*line.points[i].value);
    }
    const auto fit = evaluate::linear_trend(x, y);
    if (!fit) return evaluate::NotEvaluated{"all values are from one day"};
    Drift drift{.fit = *fit,
                .points = chosen.points,
                .from = first.day,
                .to = last.day,
                .since_adjustment = chosen.since_adjustment,
                .significant = fit->p ? *fit->p < level : fit->slope != 0,
                .horizon = std::clamp(x.back(), 1.0, 5.0),
                .reached = {},
                .value_reached = {}};
    // A line that changed by nothing but rounding has no slope.
    const auto [low, high] = std::ranges::minmax(y);
    if (high - low <= 1e-9 * std::max(std::abs(low), std::abs(high))) {
        drift.significant = false;
        drift.fit.p.reset();
    }
    const bool adjusted_since = !adjustments_from(line, chosen.points.back() + 1).empty();
    if (const auto limit = line.limit(); limit && drift.significant && !adjusted_since) {
        drift.reached = years_to(line, drift, x.back(), *limit, last.expanded.value_or(0));
        drift.value_reached = years_to(line, drift, x.back(), *limit, 0);
    }
    return drift;
}

void warn(HistoryLine& line) {
    using Kind = HistoryWarning::Kind;
    const HistoryPoint* latest = line.latest();
    const auto limit = line.limit();
    if (!latest || !limit) return;
    const units::NumberStyle style;
    const double size = std::abs(*latest->value);
    const std::string value = latest->day + ": " + value_words(line, *latest->value, style), at = limit_words(line, *limit, style);
    const bool beyond = size > *limit, with_U = !beyond && latest->expanded && size + *latest->expanded >= *limit;
    if (beyond) line.warnings.push_back({Kind::BeyondLimit, value + " exceeds the limit " + at});
    if (with_U)
        line.warnings.push_back(
            {Kind::AtLimitWithU, value + ", with U " + value_words(line, *latest->expanded, style) + ", reaches the limit " + at});
    const Drift* drift = evaluate::value_of(line.drift);
    if (!drift || !drift->reached || beyond) return;
    const auto when = [&](double years) {
        return years > 0 ? "about " + month_after(drift->to, years) + " if the trend continues" : std::string("already");
    };
    const bool U_counts = line.points[drift->points.back()].expanded.has_value() && !with_U;
    if (U_counts)
        line.warnings.push_back({Kind::TowardsLimit, fmt::format("the line with U reaches the limit {} {}", at, when(*drift->reached))});
    else if (drift->value_reached)
        line.warnings.push_back({Kind::TowardsLimit, fmt::format("the line reaches the limit {} {}", at, when(*drift->value_reached))});
}

void note(HistoryLine& line) {
    std::vector<std::string> limits;
    std::optional<double> before;
    for (const HistoryPoint& point : line.points) {
        if (!point.limit || point.limit == before) continue;
        limits.push_back(limit_words(line, *point.limit, {}) + " from " + point.day);
        before = point.limit;
    }
    if (limits.size() > 1)
        line.notes.push_back(fmt::format("the limit changed: {}; trend and warnings use the latest", fmt::join(limits, ", ")));
    const Drift* drift = evaluate::value_of(line.drift);
    if (!drift) return;
    const HistoryPoint& last = line.points[drift->points.back()];
    if (const auto after = adjustments_from(line, drift->points.back() + 1); !after.empty())
        line.notes.push_back(fmt::format(
            "adjusted on {}, after the last value of the trend: no date for reaching the limit follows from it", after.back()));
    const double years = (day_number(last) - day_number(line.points[drift->points.front()])) / days_of_year;
    if (drift->significant && last.expanded && std::abs(drift->fit.slope) * years < *last.expanded)
        line.notes.push_back("the change over these visits is smaller than U");
    if (drift->significant && line.limit() && !last.expanded)
        line.notes.push_back("no U is stated: only the value is compared with the limit");
}

}  // namespace

bool has_sign(const HistoryLine& line) { return document::is_signed(line.parameter) || line.parameter == "squareness"; }

void judge(HistoryLine& line) {
    set_apart(line);
    line.drift = drift_of(line);
    warn(line);
    note(line);
}

}  // namespace wayfolio::catalogue
