#include "plan/plan.hpp"

#include "input/encoding.hpp"
#include "units/number_text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

namespace wayfolio::plan {
namespace {

std::string place(const Planned& planned, double position) {
    return fmt::format("{} {}", units::shortest(position), planned.range.unit.spelling);
}

std::string targets_line(const Planned& planned) {
    const auto count = planned.targets.size();
    const double interval = (planned.targets.back() - planned.targets.front()) / static_cast<double>(count - 1);
    const double span = planned.range.span();
    const std::string density =
        planned.range.rotary()
            ? fmt::format("{} a revolution", units::shortest(std::round(3600.0 * static_cast<double>(count) / span) / 10))
            : fmt::format("{} a metre", units::shortest(std::round(1e4 * static_cast<double>(count) / span) / 10));
    return fmt::format("{} targets from {} to {}, {}; mean interval {}, moved at random by up to {:.0f} % of it between the ends (seed {})",
                       count, place(planned, planned.targets.front()), place(planned, planned.targets.back()), density,
                       place(planned, std::round(interval * 10) / 10), random_part * 100, planned.seed);
}

std::string runs_line(const Planned& planned) {
    const std::string order =
        planned.order == document::RunOrder::Alternating ? "in turn, there and back" : "first all positive, then all negative";
    return fmt::format("{} {} in each approach, {}; the first and last target need room beyond them, to be approached from both sides",
                       planned.runs, planned.runs == 1 ? "run" : "runs", order);
}

std::string time_line(const Planned& planned) {
    if (!planned.time) return "Time: not known without feed and dwell";
    return fmt::format(
        "Time: a run {}, a series {}, all {} series {} ({} {} at {} {}/min, {} s at each target; without set-up, warm-up, "
        "acceleration and what lies between runs)",
        duration_words(planned.time->run_s), duration_words(planned.time->series_s), planned.series.size(),
        duration_words(planned.time->all_s), units::shortest(planned.range.span()), planned.range.rotary() ? "deg" : "mm",
        units::shortest(*planned.feed), planned.range.rotary() ? "deg" : "mm", units::shortest(*planned.dwell_s));
}

std::string_view standing(const evaluate::Condition& condition) {
    if (!condition.holds) return "open";
    return *condition.holds ? "meets" : "NOT MET";
}

}  // namespace

std::string duration_words(double seconds) {
    constexpr double in_minutes_from = 600, minute = 60, hour = 3600;
    if (seconds < minute) return fmt::format("{:.0f} s", std::ceil(seconds));
    if (seconds < in_minutes_from) {
        const double whole = std::ceil(seconds);
        return fmt::format("{:.0f} min {:.0f} s", std::floor(whole / minute), std::fmod(whole, minute));
    }
    const double minutes = std::ceil(seconds / minute);
    if (minutes * minute < hour) return fmt::format("{:.0f} min", minutes);
    return fmt::format("{:.0f} h {:.0f} min", std::floor(minutes / minute), std::fmod(minutes, minute));
}

std::vector<std::string> plan_lines(const Planned& planned) { return {targets_line(planned), runs_line(planned), time_line(planned)}; }

std::string plan_text(const Planned& planned) {
    std::string text = fmt::format("{} {} planned{}:\n", planned.series.size(), planned.series.size() == 1 ? "series is" : "series are",
                                   planned.machine.empty() ? "" : " on " + input::printable(planned.machine));
    for (const PlannedSeries& series : planned.series)
        text += fmt::format("  {}: {} {}{}\n", input::printable(series.id), series.error, series.words,
                            series.state.empty() ? "" : ", " + input::printable(series.state));
    for (const std::string& line : plan_lines(planned)) text += line + ".\n";
    text += "Conditions of the standard, once every reading is taken:\n";
    for (const evaluate::Condition& condition : planned.conditions) text += fmt::format("  {:8}{}\n", standing(condition), condition.text);
    for (const gather::FactsAccount& facts : planned.facts)
        text += fmt::format("{}: {} facts taken, SHA-256 {}\n", input::printable(facts.file), facts.taken, facts.sha256);
    return text;
}

}  // namespace wayfolio::plan
