#include "page/blocks/answer/row_drawing.hpp"

#include "frame/bounds.hpp"
#include "page/spacing.hpp"
#include "plot/marks/row_curve.hpp"
#include "plot/marks/verdict_symbol.hpp"
#include "plot/shapes.hpp"
#include "plot/spacing.hpp"

#include <algorithm>
#include <utility>

namespace wayfolio::page {
namespace {

using report::QuantityRow;

/// Baselines of a row's two lines below its upper edge: closer where rows are.
struct RowBaselines {
    double first, second;
    explicit RowBaselines(Paper pitch) : first(pitch < pt(22) ? 8.8 : 10.5), second(pitch < pt(22) ? 17 : 20) {}
};

constexpr double name_room = curve_left - 2, name_words_gap = 4, between_reasons = 10;
constexpr double probability_width = 22, probability_height = 2.6, probability_words_at = 25;

/// A drawing in a cell, with its words.
Group drawn_cell(Group drawing, const std::string& words) {
    Group cell = plot::grouped(frame::Role::DataCell, {});
    if (words.empty()) return cell;
    Group figure = plot::grouped(frame::Role::Figure, {std::move(drawing)});
    figure.alternative = words;
    cell.items.emplace_back(std::move(figure));
    return cell;
}

Group drawn_curve(const Tools& tools, const QuantityRow& row, const CurveDrawing& drawing, const Rect& box) {
    if (row.lean) return plot::marks::row_lean(tools, *row.lean, box);
    if (!drawing.x) return {};
    return plot::marks::row_curve(tools, row.curve, *drawing.x, *drawing.position_unit, drawing.unit, drawing.points_per_unit, box);
}

Group curve_cell(const Composer& composer, const QuantityRow& row, const CurveDrawing& drawing, Paper middle) {
    const Paper left = composer.grid().left;
    const Rect box{left + pt(curve_left), middle - drawing.height / 2, pt(curve_right - curve_left), drawing.height};
    if (row.curve.empty() && !row.lean) {
        Group cell = plot::grouped(frame::Role::DataCell, {});
        if (!row.no_curve.empty())
            plot::put(cell.items, composer.tools(), row.no_curve, {.colour = ColourRole::Grey}, {box.left, middle + pt(plot::half_figure)});
        return cell;
    }
    return drawn_cell(drawn_curve(composer.tools(), row, drawing, box), row.curve_words);
}

Text plainly(const Text& words) {
    Text plain;
    for (const report::Span& span : words.spans())
        if (span.emphasis == report::Emphasis::Symbol) plain.symbol(span.text);
        else plain.plain(span.text);
    return plain;
}

/// A number with its point in line, as long as it keeps off the curve and what stands right of it; smaller where it does not.
void put_value(Group& cell, const Composer& composer, const Text& words, Look look, Paper baseline, Paper right) {
    const Tools& tools = composer.tools();
    const Paper left = composer.grid().left;
    if (words.words() == "\u2013") {
        plot::put(cell.items, tools, words, look, {left + pt(value_point), baseline}, Align::Right);
        return;
    }
    Group tried;
    const auto put = [&] {
        tried = {};
        put_decimal(tried.items, tools, words, look, {left + pt(value_point), baseline});
        return frame::bounds(Item(tried));
    };
    auto box = put();
    if (box && box->right() > right && look.type == TypeRole::Body) {
        look.type = TypeRole::Small;
        box = put();
    }
    const Paper least = left + pt(curve_right + name_words_gap);
    if (box && (box->left < least || box->right() > right)) {
        tried = {};
        plot::put(tried.items, tools, words, look, {least, baseline});
    }
    for (Item& item : tried.items) cell.items.emplace_back(std::move(item));
}

Group value_cell(const Composer& composer, const QuantityRow& row, const RowBaselines& lines) {
    Group cell = plot::grouped(frame::Role::DataCell, {});
    const Paper left = composer.grid().left, y = composer.y;
    const bool limited = !row.limit.empty();
    const Paper right = limited ? gauge_left(composer) - pt(name_words_gap) : composer.grid().margin_left - pt(words_gap);
    Group words = plot::grouped(frame::Role::Paragraph, {});
    put_value(words, composer, limited ? row.result : row.result_with_unit, {.type = TypeRole::Body}, y + pt(lines.first), right);
    cell.items.emplace_back(std::move(words));
    if (limited)
        cell.items.emplace_back(text_line(composer.tools(), row.limit, {.colour = ColourRole::Grey},
                                          {left + pt(limit_left), y + pt(lines.second)}, Align::Left, frame::Role::Paragraph));
    return cell;
}

Group name_cell(Composer& composer, const QuantityRow& row, Paper pitch, const RowBaselines& lines) {
    const Tools& tools = composer.tools();
    const Point at{composer.grid().left, composer.y};
    Group cell = plot::grouped(frame::Role::HeadCell, {});
    cell.scope = frame::Scope::Row;
    const bool linked = composer.page_of(row.destination) > 0;  // a layout without openings has nowhere to go
    Group words = text_line(tools, row.name, {.type = TypeRole::Body}, {at.x, at.y + pt(lines.first)}, Align::Left,
                            linked ? frame::Role::LinkText : frame::Role::Paragraph);
    if (linked) {
        words.items.emplace_back(frame::Link{.box = {at.x, at.y + pt(row_air), pt(name_room), pitch - pt(2 * row_air)},
                                             .destination = row.destination,
                                             .uri = "",
                                             .description = "To the page of " + row.name.words()});
        words = plot::grouped(frame::Role::Paragraph, {std::move(words)});
    }
    // Two paragraphs: a screen reader must not run the lines together.
    cell.items.emplace_back(std::move(words));
    cell.items.emplace_back(
        paragraph(tools, Text(row.detail), {.colour = ColourRole::Grey}, {at.x, at.y + pt(lines.second)}, pt(name_room)).group);
    return cell;
}

Paper verdict_left(const Composer& composer) { return composer.grid().margin_left + pt(symbol_room); }

Group verdict_cell(const Composer& composer, const QuantityRow& row, const RowBaselines& lines) {
    const Tools& tools = composer.tools();
    const Paper left = verdict_left(composer), y = composer.y;
    Group cell = plot::grouped(frame::Role::DataCell, {});
    if (!row.verdict.head.empty())
        cell.items.emplace_back(text_line(tools, row.verdict.head, {.type = TypeRole::Body}, {left, y + pt(lines.first)}, Align::Left,
                                          frame::Role::Paragraph));
    if (!row.verdict.margin.empty())
        cell.items.emplace_back(paragraph(tools, row.verdict.margin, {.colour = ColourRole::Grey}, {left, y + pt(lines.second)},
                                          composer.grid().margin_right - left)
                                    .group);
    return cell;
}

/// Probability in words, and how much of a line of fixed length it is.
Group probability_cell(Composer& composer, const QuantityRow& row, const RowBaselines& lines) {
    const Tools& tools = composer.tools();
    Group cell = plot::grouped(frame::Role::DataCell, {});
    if (!row.probability) return cell;
    const Paper right = composer.grid().margin_right, left = right - pt(probability_width), baseline = composer.y + pt(lines.first);
    const Paper middle = baseline - pt(plot::half_figure);
    plot::put(cell.items, tools, row.probability_words, {.colour = ColourRole::Grey}, {right - pt(probability_words_at), baseline},
              Align::Right);
    constexpr double half_end = 1.7;
    Group bar{.id = "probability"};
    bar.items.emplace_back(plot::line(tools, PenRole::ZeroLine, {left, middle}, {right, middle}));
    for (const Paper end : {left, right})
        bar.items.emplace_back(plot::line(tools, PenRole::ZeroLine, {end, middle - pt(half_end)}, {end, middle + pt(half_end)}));
    const Paper filled = pt(probability_width) * std::clamp(*row.probability, 0.0, 1.0);
    bar.items.emplace_back(
        plot::rectangle(tools, ColourRole::Ink, {left, middle - pt(probability_height / 2), filled, pt(probability_height)}));
    composer.add(artifact({std::move(bar)}));
    return cell;
}

}  // namespace

Paper gauge_left(const Composer& composer) { return composer.grid().wide_right - composer.tools().layout.size(SizeRole::GaugeWidth); }

Paper row_height(const Composer& composer, const QuantityRow& row, Paper pitch) {
    const Tools& tools = composer.tools();
    const Paper left = verdict_left(composer);
    return pitch + std::max(paragraph_height(tools, Text(row.detail), {.colour = ColourRole::Grey}, pt(name_room)),
                            row.verdict.margin.empty() ? Paper{}
                                                       : paragraph_height(tools, row.verdict.margin, {.colour = ColourRole::Grey},
                                                                          composer.grid().margin_right - left));
}

void place_row(Composer& composer, const QuantityRow& row, const RowLook& look, Table& table) {
    const Tools& tools = composer.tools();
    const RowBaselines lines(look.pitch);
    const Paper middle = composer.y + look.pitch / 2;
    std::vector<Group> cells{name_cell(composer, row, look.pitch, lines), curve_cell(composer, row, look.curve, middle),
                             value_cell(composer, row, lines)};
    if (look.gauges)
        cells.push_back(drawn_cell(row.limit.empty() ? Group{}
                                                     : plot::marks::gauge(tools, row.value_of_limit, row.U_of_limit, row.verdict.standing,
                                                                          gauge_left(composer), middle),
                                   row.gauge_words));
    cells.push_back(verdict_cell(composer, row, lines));
    if (look.probabilities) cells.push_back(probability_cell(composer, row, lines));
    table.add_row(std::move(cells));
    composer.add(
        artifact({plot::marks::verdict_symbol(tools, row.verdict.standing, composer.grid().margin_left, composer.y + pt(lines.first))}));
}

namespace {

Text quiet_name(const QuantityRow& row, bool with_unit) {
    Text name = row.short_name;
    return with_unit ? name.plain(" / " + row.unit) : name;
}

/// Beside a gauge there is room for a short unit only: a long one stands with the name.
bool unit_with_name(const Composer& composer, const QuantityRow& row) {
    if (row.limit.empty()) return false;
    const Paper room = gauge_left(composer) - composer.grid().left - pt(limit_left);
    return plot::width_of(composer.tools(), row.result_with_unit, {}) > room;
}

Text quiet_verdict(const QuantityRow& row) { return plainly(row.verdict.short_form); }

}  // namespace

double quiet_row_lines(const Composer& composer, const QuantityRow& row) {
    const Tools& tools = composer.tools();
    const Paper leading = tools.layout.type(TypeRole::Small).leading;
    const Paper name = paragraph_height(tools, quiet_name(row, unit_with_name(composer, row)), {}, pt(name_room));
    const Paper verdict =
        paragraph_height(tools, quiet_verdict(row), {}, composer.grid().margin_right - verdict_left(composer));
    return 1 + std::max(name, verdict) / leading;
}

void place_quiet_row(Composer& composer, const QuantityRow& row, const CurveDrawing& drawing, Table& table) {
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    const Look grey{.colour = ColourRole::Grey};
    const Paper y = composer.y, middle = y - pt(plot::half_figure);
    const bool apart = unit_with_name(composer, row);
    Group name = plot::grouped(frame::Role::HeadCell, {});
    name.scope = frame::Scope::Row;
    name.items.emplace_back(paragraph(tools, quiet_name(row, apart), grey, {grid.left, y}, pt(name_room)).group);
    Group value = plot::grouped(frame::Role::DataCell, {});
    put_value(value, composer, apart ? row.result : row.result_with_unit, grey, y,
              row.limit.empty() ? grid.margin_left : gauge_left(composer) - pt(2));
    std::vector<Group> cells;
    cells.push_back(std::move(name));
    cells.push_back(plot::in_grey(tools, curve_cell(composer, row, drawing, middle)));
    cells.push_back(std::move(value));
    Group gauge;
    if (row.value_of_limit) {
        gauge = plot::in_grey(tools, plot::marks::gauge(tools, row.value_of_limit, row.U_of_limit, row.verdict.standing,
                                                        gauge_left(composer), middle));
        constexpr double half_tick = 4;
        const Paper x = plot::marks::gauge_limit(tools, gauge_left(composer));
        gauge.items.emplace_back(plot::line(tools, PenRole::ZeroLine, {x, middle - pt(half_tick)}, {x, middle + pt(half_tick)}));
    }
    cells.push_back(drawn_cell(std::move(gauge), row.gauge_words));
    Group verdict = plot::grouped(frame::Role::DataCell, {});
    const Paper left = verdict_left(composer);
    verdict.items.emplace_back(paragraph(tools, quiet_verdict(row), grey, {left, y}, grid.margin_right - left).group);
    cells.push_back(std::move(verdict));
    table.add_row(std::move(cells));
    composer.add(artifact({plot::marks::superseded_symbol(tools, row.verdict.standing, grid.margin_left, y)}));
}

}  // namespace wayfolio::page
