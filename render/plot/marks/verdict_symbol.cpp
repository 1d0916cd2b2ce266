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
constexpr double tip_length = 4, half_tip = 2.4, words_above_tip = 5;  // of the arrow for a value beyond the gauge

/// A disc whose right half is filled: as much past the limit as short of it.
void half_disc(std::vector<Item>& into, const Tools& tools, Point centre, Paper radius) {
    into.emplace_back(ring(tools, PenRole::SymbolRing, centre, radius));
    const Paper r = radius, h = radius * quarter_circle_handle;
    into.emplace_back(frame::Path{
        .steps = {frame::MoveTo{{centre.x, centre.y - r}},
                  frame::CurveTo{{centre.x + h, centre.y - r}, {centre.x + r, centre.y - h}, {centre.x + r, centre.y}},
                  frame::CurveTo{{centre.x + r, centre.y + h}, {centre.x + h, centre.y + r}, {centre.x, centre.y + r}}, frame::ClosePath{}},
        .fill = tools.layout.colour(ColourRole::Ink),
        .stroke = {}});
}

void dot(std::vector<Item>& into, const Tools& tools, VerdictSymbol symbol, Point centre) {
    switch (symbol) {
        case VerdictSymbol::Inside:
            into.emplace_back(ring(tools, PenRole::SymbolRing, centre, pt(gauge_radius) - tools.layout.pen(PenRole::SymbolRing).width / 2));
            break;
        case VerdictSymbol::Undecided: half_disc(into, tools, centre, pt(gauge_radius)); break;
        case VerdictSymbol::Outside:
        case VerdictSymbol::NotEvaluated:
        case VerdictSymbol::None: into.emplace_back(disc(tools, ColourRole::Ink, centre, pt(gauge_radius))); break;
    }
}

}  // namespace

frame::Group verdict_symbol(const Tools& tools, VerdictSymbol symbol, Paper left, Paper baseline) {
    frame::Group group;
    if (symbol == VerdictSymbol::None) return group;
    const Point limit{left + pt(cell / 2), baseline - pt(raise)};
    const auto upright = [&](double from, double to) {
        group.items.emplace_back(line(tools, PenRole::SymbolLimit, {limit.x, limit.y + pt(from)}, {limit.x, limit.y + pt(to)}));
    };
    if (symbol == VerdictSymbol::Undecided) {
        upright(-broken_height / 2, -disc_radius - broken_gap);
        half_disc(group.items, tools, limit, pt(disc_radius));
        upright(disc_radius + broken_gap, broken_height / 2);
        return group;
    }
    upright(-tick_height / 2, tick_height / 2);
    if (symbol == VerdictSymbol::Inside)
        group.items.emplace_back(ring(tools, PenRole::SymbolRing, {limit.x - pt(aside), limit.y}, pt(ring_radius)));
    if (symbol == VerdictSymbol::Outside)
        group.items.emplace_back(disc(tools, ColourRole::Ink, {limit.x + pt(aside), limit.y}, pt(disc_radius)));
    return group;
}

Paper gauge_limit(const Tools& tools, Paper left) { return left + tools.layout.size(SizeRole::GaugeWidth) / gauge_reach; }

frame::Group gauge(const Tools& tools, std::optional<double> value_of_limit, std::optional<double> U_of_limit, VerdictSymbol symbol,
                   Paper left, Paper middle) {
    frame::Group group;
    const Paper width = tools.layout.size(SizeRole::GaugeWidth);
    const auto x = [&](double of_limit) { return left + width * (std::clamp(of_limit, 0.0, gauge_reach) / gauge_reach); };
    group.items.emplace_back(line(tools, PenRole::ZeroLine, {left, middle}, {left + width, middle}));
    if (!value_of_limit) return group;
    if (*value_of_limit > gauge_reach) {
        const Point tip{left + width, middle};
        const std::vector<Point> head{{tip.x - pt(tip_length), tip.y - pt(half_tip)}, tip, {tip.x - pt(tip_length), tip.y + pt(half_tip)}};
        group.items.emplace_back(filled(tools, ColourRole::Ink, head));
        put(group.items, tools, units::number(*value_of_limit, 1, {tools.layout.decimal_mark}) + std::string(units::thin_space) + "\u00d7",
            {}, {tip.x, middle - pt(words_above_tip)}, Align::Right);
        return group;
    }
    if (U_of_limit) {
        group.items.emplace_back(
            line(tools, PenRole::UncertaintyBar, {x(*value_of_limit - *U_of_limit), middle}, {x(*value_of_limit + *U_of_limit), middle}));
    }
    dot(group.items, tools, symbol, {x(*value_of_limit), middle});
    return group;
}

}  // namespace wayfolio::plot::marks
