#include "catalogue/history_words.hpp"

#include "evaluate/numbers/budget.hpp"
#include "document/error_symbol.hpp"
#include "input/iso_date.hpp"
#include "report/words/names.hpp"
#include "units/deviation.hpp"
#include "units/places.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>

namespace wayfolio::catalogue {
namespace {

std::string p_words(const std::optional<double>& p, units::NumberStyle style) {
    constexpr double least_shown = 0.001;
    if (!p) return "no deviation from the line";
    if (*p < least_shown) return "p < " + units::number(least_shown, 3, style);
    constexpr double few = 0.1;
    return "p = " + units::number(*p, *p < few ? 3 : 2, style);
}

/// Two significant digits, but no more than two places beyond those of the values.
std::string slope_words(const HistoryLine& line, double slope, units::NumberStyle style) {
    const int decimals =
        slope == 0 ? decimals_of(line) : std::clamp(units::decimals_for_uncertainty(std::abs(slope)), 0, decimals_of(line) + 2);
    return units::number(slope, decimals, style) + std::string(units::thin_space) + printed_unit(line) + " a year";
}

std::string basis_words(const Drift& drift, units::NumberStyle style) {
    return fmt::format("{}\u00a0values, {}", drift.points.size(), p_words(drift.fit.p, style));
}

}  // namespace

std::string printed_unit(const HistoryLine& line) {
    const auto unit = units::deviation_unit(line.unit);
    return unit ? std::string(unit->symbol) : line.unit;
}

int decimals_of(const HistoryLine& line) {
    std::optional<double> smallest;
    double largest = 0;
    for (const HistoryPoint& point : line.points) {
        if (point.value) largest = std::max(largest, std::abs(*point.value));
        if (point.expanded && *point.expanded > 0) smallest = std::min(smallest.value_or(*point.expanded), *point.expanded);
    }
    constexpr int most = 6;
    int decimals = smallest      ? std::clamp(units::decimals_for_uncertainty(*smallest), 0, most)
                   : largest > 0 ? std::clamp(2 - static_cast<int>(std::floor(std::log10(largest))), 0, most)
                                 : 1;
    // One place for the whole column, and nothing that is not 0 prints as 0.
    constexpr double nothing = 1e-9;
    for (const HistoryPoint& point : line.points)
        if (point.value && std::abs(*point.value) > nothing) decimals = units::decimals_that_show(*point.value, decimals);
    return decimals;
}

std::string value_words(const HistoryLine& line, double value, units::NumberStyle style) {
    return units::number(value, decimals_of(line), style) + std::string(units::thin_space) + printed_unit(line);
}

std::string limit_words(const HistoryLine& line, double limit, units::NumberStyle style) {
    constexpr int most = 6;
    int decimals = 0;
    const auto left_over = [&](double scaled) { return std::abs(scaled - std::round(scaled)) > 1e-9 * std::abs(scaled); };
    while (decimals < most && left_over(limit * std::pow(10.0, decimals))) ++decimals;
    return units::number(limit, decimals, style) + std::string(units::thin_space) + printed_unit(line);
}

std::string trend_words(const HistoryLine& line, units::NumberStyle style) {
    const Drift* drift = evaluate::value_of(line.drift);
    if (!drift) return "no trend: " + std::get<evaluate::NotEvaluated>(line.drift).reason;
    const double slope = drift->fit.slope;
    const std::string since = drift->since_adjustment ? " since it was adjusted on " + drift->from : "";
    if (!drift->significant)
        return fmt::format("no trend shown{} (slope {}; {})", since, slope_words(line, slope, style), basis_words(*drift, style));
    return fmt::format("{} by {}{} ({})", slope > 0 ? "rises" : "falls", slope_words(line, std::abs(slope), style), since,
                       basis_words(*drift, style));
}

report::Text slope_words_of(const HistoryLine& line, units::NumberStyle style) {
    const Drift* drift = evaluate::value_of(line.drift);
    if (!drift) return report::Text().quiet("No slope: " + std::get<evaluate::NotEvaluated>(line.drift).reason);
    if (!drift->significant) return report::Text().quiet("No slope beyond its\u00a0").symbol("U");
    const double slope = std::abs(drift->fit.slope);
    // Significant at 5 % is more than the U that Student's t gives it for 95 %.
    const double U = evaluate::coverage_factor(drift->fit.degrees_of_freedom, 0.95) * drift->fit.slope_standard;
    const int decimals = units::decimals_for_uncertainty(U > 0 ? U : slope);
    const auto number = [&](double value) { return units::number(value, std::max(decimals, 0), style); };
    const auto month = [](const std::string& day) { return day.substr(0, 7); };
    return report::Text((drift->fit.slope > 0 ? "Grew by " : "Fell by ") + number(slope) +
                        (U > 0 ? "\u00a0±\u202f" + number(U) : std::string()) + std::string(units::thin_space) + printed_unit(line) +
                        " a year, " + month(drift->from) + " to " + month(drift->to));
}

std::string short_name(const HistoryLine& line) { return line.error + " " + line.parameter; }

std::string line_name(const HistoryLine& line) {
    const auto symbol = document::error_symbol(line.error);
    document::Document machine;
    machine.machine.emplace().vertical = line.vertical;
    std::string name = symbol ? report::quantity_title(machine, *symbol) : report::capitalised(line.parameter) + " " + line.error,
                reference = line.reference_line, parameter = line.parameter;
    std::ranges::replace(reference, '_', ' ');
    std::ranges::replace(parameter, '_', ' ');
    // Straightness of a straightness error, squareness of a squareness error: said once.
    if (symbol && parameter != "straightness" && parameter != "angle") name += ", " + parameter;
    return name + (reference.empty() ? "" : ", " + reference) + (line.series.empty() ? "" : ", series " + line.series);
}

std::string month_after(const std::string& day, double years) {
    const auto date = input::iso_date(day);
    if (!date) return {};
    const std::chrono::sys_days then{std::chrono::days{date->days() + std::lround(years * days_of_year)}};
    const std::chrono::year_month_day calendar{then};
    return fmt::format("{}-{:02}", static_cast<int>(calendar.year()), static_cast<unsigned>(calendar.month()));
}

}  // namespace wayfolio::catalogue
