#include "plot/marks/verdict_symbol.hpp"

#include "plot/spacing.hpp"
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
constexpr double tip_length = 4, half_tip = 2.4, words_past_gauge = 20, words_beside_tip = 2;  // of the arrow for a value beyond the gauge

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
    return in_grey(tools, verdict_symbol(tools, standing, left, baseline));
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

namespace {

/// The line with an arrow for its end, and how many limits the value is.
frame::Group beyond_gauge(const Tools& tools, double limits, Paper end, Paper middle, Paper left) {
    frame::Group group;
    constexpr double ten = 10;
    const report::Text words(units::number(limits, limits < ten ? 1 : 0, {tools.layout.decimal_mark}) + std::string(units::thin_space) +
                             "\u00d7");
    const Paper words_end = end + pt(words_past_gauge), words_left = words_end - width_of(tools, words, {});
    const Point tip{std::min(end, words_left - pt(words_beside_tip)), middle};
    const std::vector<Point> head{{tip.x - pt(tip_length), tip.y - pt(half_tip)}, tip, {tip.x - pt(tip_length), tip.y + pt(half_tip)}};
    group.items.emplace_back(line(tools, PenRole::ZeroLine, {left, middle}, tip));
    group.items.emplace_back(filled(tools, ColourRole::Ink, head));
    put(group.items, tools, words, {}, {words_end, middle + pt(half_figure)}, Align::Right);
    return group;
}

}  // namespace

frame::Group gauge(const Tools& tools, std::optional<double> value_of_limit, std::optional<double> U_of_limit, Standing standing,
                   Paper left, Paper middle) {
    frame::Group group;
    const Paper width = tools.layout.size(SizeRole::GaugeWidth);
    const auto x = [&](double of_limit) { return left + width * (std::clamp(of_limit, 0.0, gauge_reach) / gauge_reach); };
    if (value_of_limit && *value_of_limit > gauge_reach) return beyond_gauge(tools, *value_of_limit, left + width, middle, left);
    group.items.emplace_back(line(tools, PenRole::ZeroLine, {left, middle}, {left + width, middle}));
    if (!value_of_limit) return group;
    if (U_of_limit) {
        group.items.emplace_back(
            line(tools, PenRole::UncertaintyBar, {x(*value_of_limit - *U_of_limit), middle}, {x(*value_of_limit + *U_of_limit), middle}));
    }
    value_mark(group.items, tools, standing, {x(*value_of_limit), middle});
    return group;
}

frame::Group gauge_before(const Tools& tools, double value_of_limit, Paper left, Paper middle) {
    frame::Group group{.id = "before"};
    if (value_of_limit < 0 || value_of_limit > gauge_reach) return group;
    constexpr double radius = 1.5;
    const Paper x = left + tools.layout.size(SizeRole::GaugeWidth) * (value_of_limit / gauge_reach);
    group.items.emplace_back(ring(tools, PenRole::SymbolRing, {x, middle}, pt(radius)));
    return group;
}

}  // namespace wayfolio::plot::marks
