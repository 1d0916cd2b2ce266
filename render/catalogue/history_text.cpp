#include "catalogue/history_words.hpp"

#include "report/words/names.hpp"
#include "input/encoding.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::catalogue {
namespace {

std::string cell(const HistoryLine& line, const std::optional<double>& value) {
    return value ? units::number(*value, decimals_of(line)) : "-";
}

std::string limit_cell(const HistoryLine& line, const std::optional<double>& limit) {
    const std::string words = limit ? limit_words(line, *limit, {}) : "-";
    return words.substr(0, words.find(units::thin_space));
}

std::string_view verdict_cell(const HistoryPoint& point) {
    return point.outcome.empty() ? "-" : evaluate::word(standing_of(point.outcome, point.value, point.limit));
}

std::string remark(const HistoryPoint& point) {
    if (!point.value && !point.reason.empty()) return "  not evaluated: " + point.reason;
    return point.apart.empty() ? "" : "  not in the trend: " + point.apart;
}

/// fmt counts code points for widths; every sign we print is one column wide.
std::string row(const HistoryLine& line, const HistoryPoint& point) {
    const std::string state = report::state_words(point.state);
    return fmt::format(
        "  {:10}  {:9} {:>10} {:>9} {:>9}  {:22}  {}{}\n", point.day, state.empty() ? "-" : input::printable(state), cell(line,
            point.value),
        cell(line, point.expanded), limit_cell(line, point.limit), verdict_cell(point),
        input::printable(fmt::format("{}, revision {}  {}", point.job.empty() ? "no number" : point.job, point.revision, point.folder)),
        input::printable(remark(point)));
}

std::string line_text(const HistoryLine& line) {
    std::string text =
        fmt::format("\n{}, in {}\n", input::printable(line_name(line)),
            input::printable(printed_unit(line).empty() ? "-" : printed_unit(line)));
    text +=
        fmt::format("  {:10}  {:9} {:>10} {:>9} {:>9}  {:22}  {}\n", "date", "state", "value", "U", "limit", "verdict", "job and record");
    for (const HistoryPoint& point : line.points) text += row(line, point);
    text += "  Trend: " + trend_words(line, {}) + "\n";
    for (const HistoryWarning& warning : line.warnings) text += "  Warning: " + warning.text + "\n";
    for (const std::string& one : line.notes) text += "  Note: " + one + "\n";
    return text;
}

/// Parameters without a limit are named, so that nobody takes the listing for all there is.
std::string not_shown(const History& history) {
    std::vector<std::string> names;
    if (std::ranges::any_of(history.lines, &HistoryLine::has_limit))
        for (const HistoryLine& line : history.lines)
            if (!line.has_limit()) names.push_back(short_name(line));
    names.erase(std::unique(names.begin(), names.end()), names.end());
    return names.empty() ? ""
                         : fmt::format("\nWithout a limit, and shown with --parameter or --json: {}\n",
                             input::printable(report::listed(names)));
}

}  // namespace

std::string history_text(const History& history) {
    std::string text = input::printable(fmt::format("{}; serial {}; {}", history.machine.empty() ? "machine not stated" : history.machine,
                                             history.serial.empty() ? "not stated" : history.serial,
                                             history.customer.empty() ? "customer not stated" : history.customer)) +
                       "\n";
    text += fmt::format("{} {} from {} to {}\n", history.visits, history.visits == 1 ? "visit" : "visits", history.from, history.to);
    for (const std::string& notice : history.notices) text += input::printable(notice) + "\n";
    for (const std::string& one : history.left_out) text += "Left out: " + input::printable(one) + "\n";
    for (const HistoryLine* line : lines_of_interest(history)) text += line_text(*line);
    return text + not_shown(history);
}

}  // namespace wayfolio::catalogue
