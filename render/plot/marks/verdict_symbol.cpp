#include "plot/marks/verdict_symbol.hpp"

#include "units/number_text.hpp"

#include <algorithm>

namespace wayfolio::plot::marks {
namespace {

using report::VerdictSymbol;

constexpr double cell = 14, raise = 3.2, aside = 4.6;
constexpr double ring_radius = 2.05, disc_radius = 2.4, gauge_radius = 2.5;
constexpr double tick_height = 9.2, broken_height = 11.2, broken_gap = 1.0;
constexpr double gauge_reach = 1.5;  // limits

/// A disc whose right half is filled: as much past the limit as short of it.
void half_disc(std::vector<Item>& into, const Tools& tools, Point centre, Paper radius) {
    into.emplace_back(ring(tools, "symbol_ring", centre, radius));
    constexpr double handle = 0.5522847498;
    const Paper r = radius, h = radius * handle;
    into.emplace_back(frame::Path{
        .steps = {frame::MoveTo{{centre.x, centre.y - r}},
                  frame::CurveTo{{centre.x + h, centre.y - r}, {centre.x + r, centre.y - h}, {centre.x + r, centre.y}},
                  frame::CurveTo{{centre.x + r, centre.y + h}, {centre.x + h, centre.y + r}, {centre.x, centre.y + r}}, frame::ClosePath{}},
        .fill = tools.layout.colour("ink"),
        .stroke = {}});
}

void dot(std::vector<Item>& into, const Tools& tools, VerdictSymbol symbol, Point centre) {
    switch (symbol) {
        case VerdictSymbol::Inside:
            into.emplace_back(ring(tools, "symbol_ring", centre, pt(gauge_radius) - tools.layout.pen("symbol_ring").width / 2));
            break;
        case VerdictSymbol::Undecided: half_disc(into, tools, centre, pt(gauge_radius)); break;
        case VerdictSymbol::Outside:
        case VerdictSymbol::NotEvaluated:
        case VerdictSymbol::None: into.emplace_back(disc(tools, "ink", centre, pt(gauge_radius))); break;
    }
}

}  // namespace

frame::Group verdict_symbol(const Tools& tools, VerdictSymbol symbol, Paper left, Paper baseline) {
    frame::Group group;
    if (symbol == VerdictSymbol::None) return group;
    const Point limit{left + pt(cell / 2), baseline - pt(raise)};
    const auto upright = [&](double from, double to) {
        group.items.emplace_back(line(tools, "symbol_limit", {limit.x, limit.y + pt(from)}, {limit.x, limit.y + pt(to)}));
    };
    if (symbol == VerdictSymbol::Undecided) {
        upright(-broken_height / 2, -disc_radius - broken_gap);
        half_disc(group.items, tools, limit, pt(disc_radius));
        upright(disc_radius + broken_gap, broken_height / 2);
        return group;
    }
    upright(-tick_height / 2, tick_height / 2);
    if (symbol == VerdictSymbol::Inside) group.items.emplace_back(ring(tools, "symbol_ring", {limit.x - pt(aside), limit.y}, pt(ring_radius)));
    if (symbol == VerdictSymbol::Outside) group.items.emplace_back(disc(tools, "ink", {limit.x + pt(aside), limit.y}, pt(disc_radius)));
    return group;
}

Paper gauge_limit(const Tools& tools, Paper left) { return left + tools.layout.size("gauge_width") / gauge_reach; }

frame::Group gauge(const Tools& tools, std::optional<double> value_of_limit, std::optional<double> U_of_limit, VerdictSymbol symbol,
                   Paper left, Paper middle) {
    frame::Group group;
    const Paper width = tools.layout.size("gauge_width");
    const auto x = [&](double of_limit) { return left + width * (std::clamp(of_limit, 0.0, gauge_reach) / gauge_reach); };
    group.items.emplace_back(line(tools, "zero_line", {left, middle}, {left + width, middle}));
    if (!value_of_limit) return group;
    if (*value_of_limit > gauge_reach) {
        const Point tip{left + width, middle};
        const std::vector<Point> head{{tip.x - pt(4), tip.y - pt(2.4)}, tip, {tip.x - pt(4), tip.y + pt(2.4)}};
        group.items.emplace_back(filled(tools, "ink", head));
        put(group.items, tools, units::number(*value_of_limit, 1, {tools.layout.decimal_mark}) + std::string(units::thin_space) + "\u00d7", {},
            {tip.x, middle - pt(5)}, Align::Right);
        return group;
    }
    if (U_of_limit) {
        group.items.emplace_back(
            line(tools, "uncertainty_bar", {x(*value_of_limit - *U_of_limit), middle}, {x(*value_of_limit + *U_of_limit), middle}));
    }
    dot(group.items, tools, symbol, {x(*value_of_limit), middle});
    return group;
}

}  // namespace wayfolio::plot::marks
