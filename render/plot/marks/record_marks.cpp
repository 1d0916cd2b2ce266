#include "plot/marks/record_marks.hpp"

#include "input/iso_date.hpp"
#include "plot/approach_roles.hpp"
#include "plot/spacing.hpp"
#include "report/words/record_time.hpp"
#include "units/number_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>

namespace wayfolio::plot::marks {
namespace {

constexpr double time_label = 40;
constexpr double numbers_above = 4, sessions_above = 14;
constexpr double minutes_of_day = 24 * 60;

PenRole pen_of(std::size_t place) {
    static constexpr std::array pens{PenRole::Record, PenRole::SecondRecord, PenRole::Mean, PenRole::Leader};
    return pens[std::min(place, pens.size() - 1)];
}

/// First, lowest, highest and last point of each quarter point of paper.
std::vector<Point> thinned(const std::vector<Point>& points) {
    constexpr double cell = 0.25;
    std::vector<Point> kept;
    for (std::size_t i = 0; i < points.size();) {
        const auto column = std::floor(points[i].x.in(units::point) / cell);
        std::size_t low = i, high = i, end = i;
        for (; end < points.size() && std::floor(points[end].x.in(units::point) / cell) == column; ++end) {
            if (points[end].y < points[low].y) low = end;
            if (points[end].y > points[high].y) high = end;
        }
        for (std::size_t j = i; j < end; ++j)
            if (j == i || j == low || j == high || j + 1 == end) kept.push_back(points[j]);
        i = end;
    }
    return kept;
}

/// Minutes between ticks: steps that a clock face or a calendar has.
double time_step(double minutes, int most) {
    for (const double step : {1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 180.0, 360.0, 720.0})
        if (minutes / step <= most) return step;
    return minutes_of_day * std::ceil(minutes / minutes_of_day / most);
}

std::string day_words(const std::string& first, double minutes) {
    const auto date = input::iso_date(first);
    if (!date) return {};
    const std::chrono::sys_days day{std::chrono::days{date->days() + std::lround(minutes / minutes_of_day)}};
    const std::chrono::year_month_day calendar{day};
    return fmt::format("{:02}-{:02}", static_cast<unsigned>(calendar.month()), static_cast<unsigned>(calendar.day()));
}

}  // namespace

frame::Group record_curve(const Tools& tools, const report::RecordCurve& curve, std::size_t place, const Scale& time, const Scale& y) {
    frame::Group group;
    std::vector<Point> stretch;
    const auto close = [&] {
        if (stretch.size() > 1) group.items.emplace_back(polyline(tools, pen_of(place), thinned(stretch)));
        // A value between two missing ones is a point, not nothing.
        if (stretch.size() == 1)
            group.items.emplace_back(disc(tools, ColourRole::Ink, stretch[0], tools.layout.pen(PenRole::Record).width));
        stretch.clear();
    };
    for (const auto& [minutes, value] : curve.points) {
        if (value) stretch.push_back({time.map(minutes), y.map(*value)});
        else close();
    }
    close();
    return group;
}

frame::Group run_lanes(const Tools& tools, const report::RecordPlot& plot, const Scale& time, Paper top, Paper foot) {
    frame::Group group{.id = "runs"};
    bool room = true;
    for (const report::RunLane& lane : plot.lanes) {
        const Paper from = time.map(lane.from), to = time.map(lane.to);
        constexpr double air = 1;
        room = room && width_of(tools, lane.number, {}) + pt(air) <= to - from;
        group.items.emplace_back(rectangle(tools, ColourRole::Lane, {from, top, to - from, foot - top}));
    }
    for (const report::RunLane& lane : plot.lanes) {
        const Paper from = time.map(lane.from), to = time.map(lane.to);
        group.items.emplace_back(line(tools, roles_of(lane.approach).mean, {from, top}, {to, top}));
        if (room) put(group.items, tools, lane.number, {}, {(from + to) / 2, top - pt(numbers_above)}, Align::Centre);
    }
    Paper free = time.from();
    for (const report::Session& session : plot.sessions) {
        const Paper width = width_of(tools, session.words, {});
        const Paper middle = (time.map(session.from) + time.map(session.to)) / 2;
        const Paper left = std::clamp(middle - width / 2, time.from(), std::max(time.from(), time.to() - width));
        // Names that would run into each other are left to the caption's and the table's words.
        if (left < free) continue;
        put(group.items, tools, session.words, {}, {left, top - pt(room ? sessions_above : numbers_above)});
        constexpr double apart = 6;
        free = left + width + pt(apart);
    }
    return group;
}

frame::Group value_ticks(const Tools& tools, const Ticks& ticks, Paper x, const Scale& y) {
    frame::Group group;
    for (const double value : ticks.values) {
        const Paper at = y.map(value);
        group.items.emplace_back(line(tools, PenRole::Tick, {x - tools.layout.size(SizeRole::TickLength), at}, {x, at}));
        put(group.items, tools, units::number(value, ticks.decimals, {tools.layout.decimal_mark}), {},
            {x - pt(number_beside_axis), at + pt(half_figure)}, Align::Right);
    }
    return group;
}

frame::Group time_axis(const Tools& tools, const report::RecordPlot& plot, const Scale& time, Paper foot) {
    frame::Group group{.id = "x-axis"};
    group.items.emplace_back(line(tools, PenRole::Axis, {time.from(), foot}, {time.to(), foot}));
    const int most = std::max(1, static_cast<int>((time.to() - time.from()).in(units::point) / time_label));
    const double step = time_step(plot.to - plot.from, most);
    for (double minutes = std::ceil(plot.from / step) * step; minutes <= plot.to; minutes += step) {
        const Paper x = time.map(minutes);
        group.items.emplace_back(line(tools, PenRole::Axis, {x, foot}, {x, foot + tools.layout.size(SizeRole::TickLength)}));
        const std::string words = step < minutes_of_day ? report::clock_words(minutes) : day_words(plot.first_day, minutes);
        put(group.items, tools, words, {}, {x, foot + pt(number_below_axis)}, Align::Centre);
    }
    return group;
}

}  // namespace wayfolio::plot::marks
