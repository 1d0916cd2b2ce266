#include "compare/comparison.hpp"
#include "input/encoding.hpp"
#include "units/number_text.hpp"
#include "units/places.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace wayfolio::compare {

namespace {

constexpr std::size_t longest_value = 60;
/// What the rounding of doubles leaves of a value that is 0: in µm or µrad.
constexpr double nothing = 1e-9;

std::string shortened(const std::string& json) {
    if (json.empty()) return "(not there)";
    // Cut between characters, never inside one (UTF-8 continuation bytes are 10xxxxxx).
    std::size_t end = std::min(json.size(), longest_value);
    while (end < json.size() && (static_cast<unsigned char>(json[end]) & 0xC0) == 0x80) --end;
    return json.size() > longest_value ? json.substr(0, end) + "..." : json;
}

/// Decimals of one row: those that the smaller of both uncertainties deserves, four significant digits of the larger value without one;
/// more where a value would print as 0.
int row_decimals(const ParameterChange& change) {
    std::optional<int> decimals;
    for (const auto& expanded : {change.expanded_was, change.expanded_now})
        if (expanded && expanded->in(change.unit) > 0)
            decimals = std::max(decimals.value_or(0), units::decimals_for_uncertainty(expanded->in(change.unit)));
    double largest = 0;
    for (const auto& value : {change.was, change.now})
        if (value) largest = std::max(largest, std::abs(value->in(change.unit)));
    constexpr int significant = 4;
    if (!decimals) decimals = largest > 0 ? std::max(0, significant - 1 - static_cast<int>(std::floor(std::log10(largest)))) : 0;
    for (const auto& value : {change.was, change.now})
        if (value && std::abs(value->in(change.unit)) * change.unit.in_base > nothing)
            decimals = units::decimals_that_show(value->in(change.unit), *decimals);
    return *decimals;
}

/// The numbers of a row to one place; the difference is that of what is printed.
struct RowNumbers {
    std::string was = "-", now = "-", difference = "-", expanded_was = "-", expanded_now = "-";
};

RowNumbers row_numbers(const ParameterChange& change) {
    int decimals = row_decimals(change);
    RowNumbers row;
    if (change.was && change.now) {
        const auto printed =
            units::printed_difference(change.was->in(change.unit), change.now->in(change.unit), decimals, nothing / change.unit.in_base);
        decimals = printed.decimals;
        row.difference = (printed.value > 0 ? "+" : "") + units::number(printed.value, decimals);
    }
    const auto set = [&](std::string& text, const std::optional<Deviation>& value) {
        if (value) text = units::number(value->in(change.unit), decimals);
    };
    set(row.was, change.was);
    set(row.now, change.now);
    set(row.expanded_was, change.expanded_was);
    set(row.expanded_now, change.expanded_now);
    return row;
}

std::string against(const ParameterChange& change) {
    if (change.against_U) return units::number(*change.against_U, 2) + (*change.against_U > 1 ? "  more than U" : "");
    if (!change.was && !change.reason_was.empty()) return "old: " + change.reason_was;
    if (!change.now && !change.reason_now.empty()) return "new: " + change.reason_now;
    return "-";
}

/// fmt counts code points for widths; every sign we print is one column wide.
void add_row(std::string& text, std::size_t name_width, const std::vector<std::string>& cells) {
    text += fmt::format("  {:<20} {:<8} {:<{}} {:>12} {:>12} {:>12} {:>9} {:>9}  {}\n", cells[0], cells[1], cells[2], name_width, cells[3],
                        cells[4], cells[5], cells[6], cells[7], cells[8]);
}

/// A squareness belongs to two series; its symbol stands for them.
std::string row_head(const ParameterChange& change) { return change.series.empty() ? change.error : change.series; }

void add_parameters(std::string& text, const Comparison& comparison) {
    const auto changed = std::ranges::count_if(comparison.parameters, &ParameterChange::differs);
    text += fmt::format("\nResults: {} of {} parameters differ\n", changed, comparison.parameters.size());
    if (changed == 0) return;
    std::size_t width = 22;
    for (const ParameterChange& change : comparison.parameters)
        if (change.differs()) width = std::max(width, change.parameter.size());
    add_row(text, width, {"series", "unit", "parameter", "old", "new", "new - old", "U old", "U new", "difference / U"});
    for (const ParameterChange& change : comparison.parameters) {
        if (!change.differs()) continue;
        const RowNumbers row = row_numbers(change);
        add_row(text, width,
                {row_head(change), std::string(change.unit.symbol), change.parameter, row.was, row.now, row.difference, row.expanded_was,
                 row.expanded_now, against(change)});
    }
    text +=
        "  Difference / U: U of the difference by standard uncertainties, the larger u where the readings are the same (they share their "
        "errors), else the root of the sum of squares.\n";
    if (std::ranges::any_of(comparison.parameters, [](const auto& change) { return change.differs() && change.factors_differ(); }))
        text += "  U old and U new were given with different k: they are not compared with each other.\n";
}

std::string state_word(const std::string& state) { return state.empty() ? "no state given" : state; }

void add_series(std::string& text, const Comparison& comparison) {
    for (const std::string& id : comparison.only_was) text += fmt::format("Series {}: only in the old\n", id);
    for (const std::string& id : comparison.only_now) text += fmt::format("Series {}: only in the new\n", id);
    for (const OtherId& pair : comparison.paired_by_error) {
        const std::string states =
            pair.state_was == pair.state_now ? "" : fmt::format(" ({} against {})", state_word(pair.state_was), state_word(pair.state_now));
        text += fmt::format("Series {}: compared with {}, the only series of the same error{}\n", pair.now, pair.was, states);
    }
}

void add_readings(std::string& text, const Comparison& comparison) {
    text += comparison.readings.empty() ? "\nReadings: the same\n" : "\nReadings\n";
    for (const ReadingChanges& readings : comparison.readings) {
        if (!readings.same_plan) {
            text += fmt::format("  {}: a different measurement (targets, runs or trace differ)\n", readings.series);
            continue;
        }
        std::vector<std::string> parts;
        if (readings.other_values > 0) parts.push_back(fmt::format("{} readings differ", readings.other_values));
        if (readings.largest)
            parts.push_back(fmt::format(
                "the largest difference is {} {}",
                units::number(readings.largest->in(readings.unit), units::decimals_that_show(readings.largest->in(readings.unit), 3)),
                readings.unit.symbol));
        if (readings.set_aside > 0) parts.push_back(fmt::format("{} more are excluded", readings.set_aside));
        if (readings.taken_back > 0) parts.push_back(fmt::format("{} are no longer excluded", readings.taken_back));
        text += fmt::format("  {}: {}\n", readings.series, fmt::join(parts, "; "));
    }
}

}  // namespace

std::string comparison_text(const Comparison& comparison) {
    std::string text = fmt::format("Old: {}\nNew: {}\n", input::printable(comparison.was), input::printable(comparison.now));
    if (!comparison.state_was.empty() || !comparison.state_now.empty())
        text += fmt::format("Compared: {} of the old with {} of the new\n", state_word(comparison.state_was),
                            state_word(comparison.state_now));
    if (comparison.visits_apart)
        text += "Two visits: --left-and-found sets what the old one left beside what the new one found\n";
    if (comparison.same()) return text + "Nothing differs: readings, settings and results are the same.\n";
    add_series(text, comparison);
    if (comparison.series_compared > 0) add_readings(text, comparison);
    else text += "\nNo series of the two measure the same error: readings, results and verdicts are not compared\n";
    text += comparison.changes.empty() ? "\nData and settings: the same\n" : "\nData and settings\n";
    for (const Change& change : comparison.changes)
        text += fmt::format("  {}{}: {} -> {}\n", change.pointer, change.of.empty() ? "" : " (" + change.of + ")", shortened(change.was),
                            shortened(change.now));
    if (comparison.series_compared > 0 || !comparison.parameters.empty()) add_parameters(text, comparison);
    text += comparison.verdicts.empty() ? "\nVerdicts: the same\n" : "\nVerdicts\n";
    for (const VerdictChange& verdict : comparison.verdicts)
        text += fmt::format("  {}{}: {} -> {}\n", verdict.series.empty() ? "" : verdict.series + " ", verdict.parameter,
                            evaluate::word(verdict.was), evaluate::word(verdict.now));
    return text;
}

}  // namespace wayfolio::compare
