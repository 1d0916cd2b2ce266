#include "plot/marks/history_marks.hpp"

#include "plot/marks/verdict_symbol.hpp"
#include "plot/spacing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>

namespace wayfolio::plot::marks {
namespace {

constexpr double left_aside = 4.5;      // of the value as left beside that as found of the same day: their U bars stay apart
constexpr double clear_of_mark = 3.2, head_length = 3.6, half_head = 1.5;  // of the arrow between the two
constexpr double half_level = 2.6;      // of the stroke for a value without a verdict
constexpr double label_aside = 7;         // of a value's number
constexpr double year_room = 26, month_room = 40;
constexpr double inside_axis = 2;       // words of a limit to the axis left of them
constexpr int months_of_year = 12;

Point place_of(const report::HistoryValue& value, const Scale& time, const Scale& y) {
    return {time.map(value.day) + pt(value.mark == report::HistoryMark::Left ? left_aside : 0), y.map(value.value)};
}

void take_around(LabelPlaces& places, Point at, Paper reach) { places.take({at.x - reach, at.y - reach, reach * 2, reach * 2}); }

std::chrono::year_month month_of(double day) {
    const std::chrono::sys_days then{std::chrono::days{static_cast<long>(std::floor(day))}};
    const std::chrono::year_month_day calendar{then};
    return calendar.year() / calendar.month();
}

double day_of(std::chrono::year_month month) { return static_cast<double>(std::chrono::sys_days{month / 1}.time_since_epoch().count()); }

/// Months between ticks: steps that a calendar has.
int month_step(double days, Paper width) {
    constexpr double days_of_month = 365.25 / months_of_year;
    const double months = days / days_of_month, room = width.in(units::point);
    for (const int step : {1, 2, 3, 6})
        if (months / step * month_room <= room) return step;
    for (const int years : {1, 2, 5, 10, 20, 50})
        if (months / months_of_year / years * year_room <= room) return years * months_of_year;
    return 100 * months_of_year;
}

}  // namespace

frame::Group history_mark(const Tools& tools, report::Standing standing, Point at) {
    frame::Group group;
    // An upright tick, as gauges have it, would lie in the bar of U.
    if (standing == report::Standing::NoLimit || standing == report::Standing::NotEvaluated)
        group.items.emplace_back(line(tools, PenRole::SymbolLimit, {at.x - pt(half_level), at.y}, {at.x + pt(half_level), at.y}));
    else
        value_mark(group.items, tools, standing, at);
    return group;
}

const report::HistoryValue* found_before(const report::HistoryPanel& panel, const report::HistoryValue& left) {
    if (left.mark != report::HistoryMark::Left) return nullptr;
    const auto found = std::ranges::find_if(panel.values, [&](const report::HistoryValue& value) {
        return value.mark == report::HistoryMark::Found && value.day == left.day;
    });
    return found == panel.values.end() ? nullptr : &*found;
}

frame::Group history_arrow(const Tools& tools, Point from, Point to) {
    frame::Group group;
    const double dx = (to.x - from.x).in(units::point), dy = (to.y - from.y).in(units::point), length = std::hypot(dx, dy);
    if (length < 2 * clear_of_mark + head_length) return group;
    const auto along = [&](double distance, double across = 0) {
        return Point{from.x + pt((dx * distance - dy * across) / length), from.y + pt((dy * distance + dx * across) / length)};
    };
    const double tip = length - clear_of_mark, base = tip - head_length;
    group.items.emplace_back(line(tools, PenRole::SymbolLimit, along(clear_of_mark), along(base)));
    group.items.emplace_back(
        filled(tools, ColourRole::Ink, std::array{along(tip), along(base, half_head), along(base, -half_head)}));
    return group;
}

frame::Group history_values(const Tools& tools, const report::HistoryPanel& panel, const Scale& time, const Scale& y, LabelPlaces& places) {
    frame::Group group{.id = "values"};
    for (const report::HistoryValue& value : panel.values) {
        if (!value.expanded) continue;
        const Paper x = place_of(value, time, y).x;
        const Point low{x, y.map(std::max(value.value - *value.expanded, y.low()))}, high{x, y.map(value.value + *value.expanded)};
        group.items.emplace_back(line(tools, PenRole::UncertaintyBar, low, high));
        places.take_line(low, high);
    }
    for (const report::HistoryValue& value : panel.values) {
        const Point at = place_of(value, time, y);
        if (value.mark == report::HistoryMark::Apart)
            cross(group.items, tools, at);
        else
            group.items.emplace_back(history_mark(tools, value.standing, at));
        if (const auto* found = found_before(panel, value))
            group.items.emplace_back(history_arrow(tools, place_of(*found, time, y), at));
        take_around(places, at, tools.layout.size(SizeRole::ExcludedHalf));
    }
    return group;
}

frame::Group history_trend(const Tools& tools, const report::HistoryTrend& trend, const Scale& time, const Scale& y, LabelPlaces& places) {
    frame::Group group{.id = "trend"};
    const Point from{time.map(trend.from), y.map(trend.at_from)}, to{time.map(trend.to), y.map(trend.at_to)};
    group.items.emplace_back(line(tools, PenRole::Mean, from, to));
    places.take_line(from, to);
    return group;
}

frame::Group history_path(const Tools& tools, const report::HistoryPanel& panel, const Scale& time, const Scale& y) {
    frame::Group group{.id = "path"};
    std::vector<Point> stretch;
    const auto close = [&] {
        if (stretch.size() > 1) group.items.emplace_back(polyline(tools, PenRole::Run, stretch));
        stretch.clear();
    };
    for (const report::HistoryValue& value : panel.values) {
        if (value.mark == report::HistoryMark::Apart) continue;
        if (value.mark == report::HistoryMark::Left && found_before(panel, value)) close();
        stretch.push_back(place_of(value, time, y));
    }
    close();
    return group;
}

frame::Group history_adjustments(const Tools& tools, const report::HistoryPanel& panel, const Scale& time, const Scale& y) {
    frame::Group group{.id = "adjustments"};
    for (const report::HistoryValue& value : panel.values) {
        const auto* found = found_before(panel, value);
        if (!found || found->value == value.value) continue;
        const Paper x = time.map(value.day);
        group.items.emplace_back(line(tools, PenRole::Leader, {x, y.from()}, {x, y.to()}));
    }
    return group;
}

frame::Group history_guards(const Tools& tools, const report::HistoryPanel& panel, const Scale& time, const Scale& y) {
    frame::Group group{.id = "guards"};
    for (const report::HistoryLimit& limit : panel.limits) {
        const double low = std::max(limit.value - limit.U, y.low()), high = std::min(limit.value + limit.U, y.high());
        if (!(limit.U > 0) || low >= high) continue;
        const Paper left = time.map(limit.from), right = time.map(limit.to), top = y.map(high), bottom = y.map(low);
        const std::array corners{Point{left, top}, Point{right, top}, Point{right, bottom}, Point{left, bottom}};
        group.items.emplace_back(
            hatch(stroke(tools, PenRole::BandHatch), corners, tools.layout.size(SizeRole::HatchPitch), HatchSlope::Rising));
    }
    return group;
}

frame::Group history_labels(const Tools& tools, const report::HistoryPanel& panel, const Scale& time, const Scale& y, LabelPlaces& places) {
    frame::Group group{.id = "labels"};
    for (const report::HistoryValue& value : panel.values) {
        if (value.label.empty()) continue;
        const Point at = place_of(value, time, y);
        const Paper width = width_of(tools, value.label, {}), aside = pt(label_aside);
        const auto boxed = [&](Paper left, Paper baseline) { return Rect{left, baseline - pt(small_figure_top), width, pt(label_height)}; };
        const Paper level = at.y + pt(half_figure), below = at.y + pt(label_below_line + clear_of_mark),
                    above = at.y - pt(label_above_line + clear_of_mark);
        const auto box = places.place({boxed(at.x + aside, level), boxed(at.x - width / 2, below), boxed(at.x - width / 2, above),
                                       boxed(at.x - aside - width, level), boxed(at.x + aside, below), boxed(at.x + aside, above)});
        if (box) put(group.items, tools, value.label, {}, {box->left, box->top + pt(small_figure_top)});
    }
    return group;
}

frame::Group history_limits(const Tools& tools, const report::HistoryPanel& panel, const Scale& time, const Scale& y, LabelPlaces& places) {
    frame::Group group{.id = "limits"};
    std::optional<Paper> latest;
    Paper guard_top{}, guard_bottom{};
    for (const report::HistoryLimit& limit : panel.limits) {
        if (limit.value > y.high() || limit.value < y.low()) continue;
        const Point from{time.map(limit.from), y.map(limit.value)}, to{time.map(limit.to), y.map(limit.value)};
        group.items.emplace_back(line(tools, PenRole::Limit, from, to));
        places.take_level(from.x, to.x, from.y);
        latest = from.y;
        guard_top = y.map(std::min(limit.value + limit.U, y.high()));
        guard_bottom = y.map(std::max(limit.value - limit.U, y.low()));
    }
    if (!latest) return group;
    const Paper width = width_of(tools, panel.limit_label, {}), right = time.to() - width, left = time.from() + pt(inside_axis);
    const auto boxed = [&](Paper x, Paper baseline) { return Rect{x, baseline - pt(small_figure_top), width, pt(label_height)}; };
    const Paper above = guard_top - pt(label_above_line), below = guard_bottom + pt(label_below_line);
    const auto box =
        places.place({boxed(right, above), boxed(left, above), boxed((left + right) / 2, above), boxed(right, below), boxed(left, below)});
    // Where no place is free the words of the panel's head name the limit.
    if (box) put(group.items, tools, panel.limit_label, {}, {box->left, box->top + pt(small_figure_top)});
    return group;
}

frame::Group date_axis(const Tools& tools, const Scale& time, Paper foot) {
    frame::Group group{.id = "x-axis"};
    group.items.emplace_back(line(tools, PenRole::Axis, {time.from(), foot}, {time.to(), foot}));
    const int step = month_step(time.high() - time.low(), time.to() - time.from());
    std::chrono::year_month month = month_of(time.low());
    const auto count = [](std::chrono::year_month one) {
        return static_cast<int>(one.year()) * months_of_year + static_cast<int>(static_cast<unsigned>(one.month())) - 1;
    };
    while (count(month) % step != 0 || day_of(month) < time.low()) month += std::chrono::months{1};
    for (; day_of(month) <= time.high(); month += std::chrono::months{step}) {
        const Paper x = time.map(day_of(month));
        group.items.emplace_back(line(tools, PenRole::Axis, {x, foot}, {x, foot + tools.layout.size(SizeRole::TickLength)}));
        const std::string words = step >= months_of_year
                                      ? fmt::format("{}", static_cast<int>(month.year()))
                                      : fmt::format("{}-{:02}", static_cast<int>(month.year()), static_cast<unsigned>(month.month()));
        const Paper half = width_of(tools, words, {}) / 2;
        // Left of the axis is the room of the value numbers; right of it may be the page's edge.
        put(group.items, tools, words, {}, {std::min(x, time.to() - half), foot + pt(number_below_axis)}, Align::Centre);
    }
    return group;
}

}  // namespace wayfolio::plot::marks
