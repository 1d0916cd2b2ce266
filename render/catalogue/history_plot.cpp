#include "catalogue/history_figure.hpp"
#include "catalogue/history_words.hpp"

#include "input/iso_date.hpp"
#include "report/words/names.hpp"
#include "document/parameter.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

namespace wayfolio::catalogue {
namespace {

constexpr double margin_share = 0.04, least_margin = 20;  // of the span, and in days, on both sides
constexpr double margin_for_numbers = 3;                   // times as much behind the last value

double axis_day(const std::string& day) { return static_cast<double>(input::iso_date(day)->days()); }

std::vector<const HistoryLine*> lines_with_values(const History& history) {
    std::vector<const HistoryLine*> lines = lines_of_interest(history);
    std::erase_if(lines, [](const HistoryLine* line) {
        return std::ranges::none_of(line->points, [](const HistoryPoint& point) { return point.value.has_value(); });
    });
    return lines;
}

report::HistoryMark mark_of(const HistoryPoint& point) {
    if (!point.counts()) return report::HistoryMark::Apart;
    return is_as_left(point) ? report::HistoryMark::Left : report::HistoryMark::Found;
}

/// Each limit holds from the first visit that names it until another takes its place, the last on to the end.
std::vector<report::HistoryLimit> limits_of(const HistoryLine& line, double end) {
    std::vector<report::HistoryLimit> limits;
    for (const HistoryPoint& point : line.points) {
        if (!point.limit || (!limits.empty() && limits.back().value == *point.limit)) continue;
        if (!limits.empty()) limits.back().to = axis_day(point.day);
        limits.push_back({axis_day(point.day), end, *point.limit});
    }
    for (const HistoryPoint& point : line.points)
        for (report::HistoryLimit& limit : limits)
            if (point.limit == limit.value && point.counts() && point.expanded) limit.U = *point.expanded;
    return limits;
}

/// Where no significant slope is, there is no line.
std::optional<report::HistoryTrend> trend_of(const HistoryLine& line) {
    const Drift* drift = evaluate::value_of(line.drift);
    if (!drift || !drift->significant) return std::nullopt;
    const double from = axis_day(drift->from), to = axis_day(drift->to);
    const auto at = [&](double day) { return drift->fit.intercept + drift->fit.slope * (day - from) / days_of_year; };
    return report::HistoryTrend{from, to, at(from), at(to)};
}

/// The marks: how many values were found and left, when and why one stands apart, and when the limit changed.
std::string marks_words(const HistoryLine& line, units::NumberStyle style) {
    std::size_t found = 0, left = 0;
    std::map<evaluate::Standing, std::size_t> standings;
    std::string apart;
    for (const HistoryPoint& point : line.points) {
        if (!point.value) continue;
        ++standings[standing_of(point.outcome, point.value, point.limit)];
        if (!point.counts()) apart += fmt::format(" That of {} stands apart: {}.", point.day, point.apart);
        else ++(is_as_left(point) ? left : found);
    }
    std::string text = fmt::format(" Marked are {} as found, {} as left.{}", found, left, apart);
    std::vector<std::string> verdicts;
    for (const auto& [standing, count] : standings) verdicts.push_back(fmt::format("{} ({})", evaluate::word(standing), count));
    text += fmt::format(" Verdicts: {}.", fmt::join(verdicts, ", "));
    std::optional<double> before;
    for (const HistoryPoint& point : line.points) {
        if (before && point.limit && *point.limit != *before)
            text += fmt::format(" From {} on the limit is {}.", point.day, limit_words(line, *point.limit, style));
        if (point.limit) before = point.limit;
    }
    return text;
}

std::string alternative_of(const HistoryLine& line, units::NumberStyle style) {
    std::vector<const HistoryPoint*> values;
    for (const HistoryPoint& point : line.points)
        if (point.value) values.push_back(&point);
    const auto said = [&](const HistoryPoint& point) {
        return value_words(line, *point.value, style) + (point.expanded ? " with U " + value_words(line, *point.expanded, style) : "") +
               " on " + point.day;
    };
    std::string text = fmt::format("{} over the visits, {} {}: ", line_name(line), values.size(), values.size() == 1 ? "value" : "values");
    text += values.size() > 1 ? fmt::format("from {} to {}.", said(*values.front()), said(*values.back())) : said(*values.front()) + ".";
    text += marks_words(line, style);
    if (const auto limit = line.limit()) text += " The limit is " + limit_words(line, *limit, style) + ".";
    const std::string trend = trend_words(line, style);
    text += (trend.starts_with("no trend") ? " There is " : " It ") + trend + ".";
    for (const HistoryWarning& warning : line.warnings) text += " Warning: " + warning.text + ".";
    if (values.size() < line.points.size())
        text += fmt::format(" {} of {} were not evaluated.", line.points.size() - values.size(), line.points.size());
    return text;
}

/// What was, never what would be: a figure has no forecast.
report::Text words_of(const HistoryLine& line, units::NumberStyle style) {
    report::Text words = slope_words_of(line, style);
    for (const HistoryWarning& warning : line.warnings)
        if (warning.kind != HistoryWarning::Kind::TowardsLimit) words.quiet("; ").strong(warning.text);
    for (const std::string& note : line.notes) words.quiet("; " + note);
    return words;
}

/// Numbers at the first value and at the last ones found and left, which are strong.
void label_ends(report::HistoryPanel& panel, const HistoryLine& line, units::NumberStyle style) {
    const auto number = [&](const report::HistoryValue& value) { return units::number(value.value, decimals_of(line), style); };
    report::HistoryValue *first = nullptr, *found = nullptr, *left = nullptr;
    for (report::HistoryValue& value : panel.values) {
        if (value.mark == report::HistoryMark::Apart) continue;
        if (!first) first = &value;
        (value.mark == report::HistoryMark::Left ? left : found) = &value;
    }
    for (report::HistoryValue* value : {first, found})
        if (value) value->label = report::Text(number(*value));
    if (left) left->label = report::Text().strong(number(*left));
}

report::HistoryPanel panel_of(const HistoryLine& line, units::NumberStyle style) {
    report::HistoryPanel panel{.id = "history-" + line.error + "-" + line.parameter,
                               .title = line_name(line) + " / " + printed_unit(line),
                               .words = words_of(line, style),
                               .from_zero = true,
                               .values = {},
                               .limits = {},
                               .limit_label = {},
                               .trend = trend_of(line),
                               .alternative = alternative_of(line, style)};
    std::ranges::replace(panel.id, ' ', '-');
    for (const HistoryPoint& point : line.points) {
        if (!point.value) continue;
        panel.values.push_back({axis_day(point.day), *point.value, point.expanded, mark_of(point),
                                standing_of(point.outcome, point.value, point.limit)});
        if (*point.value < 0) panel.from_zero = false;
    }
    label_ends(panel, line, style);
    if (const auto limit = line.limit()) panel.limit_label.plain("limit " + limit_words(line, *limit, style));
    return panel;
}

}  // namespace

std::vector<const HistoryLine*> drawn_lines(const History& history) {
    std::vector<const HistoryLine*> lines = lines_with_values(history);
    if (lines.size() > most_panels) lines.resize(most_panels);
    return lines;
}

std::vector<std::string> lines_without_room(const History& history) {
    const std::vector<const HistoryLine*> lines = lines_with_values(history);
    std::vector<std::string> names;
    for (std::size_t i = most_panels; i < lines.size(); ++i) names.push_back(short_name(*lines[i]));
    return names;
}

report::HistoryPlot history_plot(const History& history, units::NumberStyle style) {
    report::HistoryPlot plot{axis_day(history.from), axis_day(history.to), {}};
    const std::vector<const HistoryLine*> lines = drawn_lines(history);
    for (const HistoryLine* line : lines) plot.panels.push_back(panel_of(*line, style));
    const double margin = std::max(least_margin, (plot.to - plot.from) * margin_share);
    plot.from -= margin;
    plot.to += margin * margin_for_numbers;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        plot.panels[i].limits = limits_of(*lines[i], plot.to);
        // What may have either sign has its limit on both sides.
        if (!plot.panels[i].from_zero)
            for (const report::HistoryLimit& limit : limits_of(*lines[i], plot.to))
                plot.panels[i].limits.insert(plot.panels[i].limits.begin(), {limit.from, limit.to, -limit.value, limit.U});
    }
    return plot;
}

}  // namespace wayfolio::catalogue
