#include "plot/marks/verdict_symbol.hpp"

#include "units/number_text.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace wayfolio::plot::marks {
namespace {

using report::Standing;

constexpr double cell = 14, raise = 3.2, aside = 4.6, close_by = 2.9;
constexpr double whisker_beyond_mark = 2.5, whisker_across = 3.4;
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

/// A ring or a disc so far from the limit.
struct MarkBeside {
    bool filled;
    double at;
};

std::optional<MarkBeside> mark_beside(Standing standing) {
    switch (standing) {
        case Standing::Inside: return MarkBeside{false, -aside};
        case Standing::InsideByLess: return MarkBeside{false, -close_by};
        case Standing::NotAccepted: return MarkBeside{true, -close_by};
        case Standing::OutsideByLess: return MarkBeside{true, close_by};
        case Standing::Outside: return MarkBeside{true, aside};
        case Standing::Undecided:
        case Standing::NotEvaluated:
        case Standing::NoLimit: break;
    }
    return std::nullopt;
}

}  // namespace

frame::Group verdict_symbol(const Tools& tools, Standing standing, Paper left, Paper baseline) {
    frame::Group group;
    if (standing == Standing::NoLimit) return group;
    const Point limit{left + pt(cell / 2), baseline - pt(raise)};
    const auto upright = [&](double from, double to) {
        group.items.emplace_back(line(tools, PenRole::SymbolLimit, {limit.x, limit.y + pt(from)}, {limit.x, limit.y + pt(to)}));
    };
    if (standing == Standing::Undecided) {
        upright(-broken_height / 2, -disc_radius - broken_gap);
        half_disc(group.items, tools, limit, pt(disc_radius));
        upright(disc_radius + broken_gap, broken_height / 2);
        return group;
    }
    upright(-tick_height / 2, tick_height / 2);
    const auto mark = mark_beside(standing);
    if (!mark) return group;
    const Point centre{limit.x + pt(mark->at), limit.y};
    if (std::abs(mark->at) == close_by) {  // the bar of U reaches across the limit
        const double outward = mark->at < 0 ? -1 : 1;
        group.items.emplace_back(line(tools, PenRole::UncertaintyBar, {centre.x + pt(outward * whisker_beyond_mark), limit.y},
                                      {limit.x - pt(outward * whisker_across), limit.y}));
    }
    group.items.emplace_back(mark->filled ? disc(tools, ColourRole::Ink, centre, pt(disc_radius))
                                          : ring(tools, PenRole::SymbolRing, centre, pt(ring_radius)));
    return group;
}

frame::Group superseded_symbol(const Tools& tools, Standing standing, Paper left, Paper baseline) {
    frame::Group group = verdict_symbol(tools, standing, left, baseline);
    const auto grey = tools.layout.colour(ColourRole::Grey), ink = tools.layout.colour(ColourRole::Ink);
    for (Item& item : group.items) {
        auto& path = std::get<frame::Path>(item);
        if (path.stroke) path.stroke->colour = grey;
        if (path.fill == ink) path.fill = grey;
    }
    return group;
}

void value_mark(std::vector<frame::Item>& into, const Tools& tools, Standing standing, Point centre) {
    switch (standing) {
        case Standing::Inside:
        case Standing::InsideByLess:
            into.emplace_back(ring(tools, PenRole::SymbolRing, centre, pt(gauge_radius) - tools.layout.pen(PenRole::SymbolRing).width / 2));
            break;
        case Standing::Undecided: half_disc(into, tools, centre, pt(gauge_radius)); break;
        case Standing::NotAccepted:
        case Standing::OutsideByLess:
        case Standing::Outside: into.emplace_back(disc(tools, ColourRole::Ink, centre, pt(gauge_radius))); break;
        case Standing::NotEvaluated:
        case Standing::NoLimit:
            into.emplace_back(
                line(tools, PenRole::SymbolLimit, {centre.x, centre.y - pt(gauge_radius)}, {centre.x, centre.y + pt(gauge_radius)}));
            break;
    }
}

Paper gauge_limit(const Tools& tools, Paper left) { return left + tools.layout.size(SizeRole::GaugeWidth) / gauge_reach; }

frame::Group gauge(const Tools& tools, std::optional<double> value_of_limit, std::optional<double> U_of_limit, Standing standing,
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
    value_mark(group.items, tools, standing, {x(*value_of_limit), middle});
    return group;
}

}  // namespace wayfolio::plot::marks
