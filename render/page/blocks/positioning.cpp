#include "page/blocks/blocks.hpp"

#include "page/flowing.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "page/table.hpp"
#include "plot/figures/figures.hpp"
#include "plot/marks/verdict_symbol.hpp"
#include "plot/shapes.hpp"
#include "plot/spacing.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::page {
namespace {

constexpr double parameters_below = 14;  // under the figure
constexpr double value_below_bracket = 9, between_values = 18, key_below_values = 20, value_in_strip = 11;

/// Columns of the parameter table, right ends measured from the wide column's left; whole numbers end at Decimal columns.
std::vector<Column> parameter_columns(const layouts::PaperGrid& grid) {
    const Paper left = grid.left;
    const auto number = [&](double at) { return Column{left + pt(at), ColumnAlign::Decimal}; };
    return {{left, ColumnAlign::Left}, number(158), number(196), number(232), number(264), number(293),
            {grid.wide_right, ColumnAlign::Right}, {grid.margin_left + pt(symbol_room), ColumnAlign::Left}};
}

std::vector<Column> parameter_heads(const layouts::PaperGrid& grid) {
    std::vector<Column> columns = parameter_columns(grid);
    constexpr std::size_t limit = 5;  // the last number, with one decimal
    for (std::size_t i = 1; i <= limit; ++i)
        columns[i] = {columns[i].x + pt(i == limit ? past_decimal / 2 : past_decimal), ColumnAlign::Right};
    columns.back().x = grid.margin_left;
    return columns;
}

double parameter_pitch(const Composer& composer) { return composer.tools().layout.size(SizeRole::TightRowPitch).in(units::point); }

/// composer.y goes to the last line.
void place_parameters(Composer& composer, const report::PositioningOpening& block) {
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    const double pitch = parameter_pitch(composer);
    Table table(tools, parameter_columns(grid));
    table.begin("");
    Table heads(tools, parameter_heads(grid));
    heads.begin("");
    heads.head({Text("Parameter / " + block.parameter_unit), Text("positive"), Text("negative"), Text("both"), Text().symbol("U"),
                Text("limit"), Text("targets"), Text("Verdict")},
               composer.y);
    Group whole = heads.take();
    std::erase_if(whole.items, [](const Item& item) { return std::get<Group>(item).role == frame::Role::TableBody; });
    composer.add(rule(tools, grid.left, grid.margin_right, composer.y + pt(rule_below_row)));
    Paper at = composer.y + pt(head_room);
    for (const report::ParameterRow& row : block.parameters) {
        table.row({row.name, row.positive, row.negative, row.both, row.U, row.limit, row.targets, row.verdict.short_form}, at);
        composer.add(artifact({plot::marks::verdict_symbol(tools, row.verdict.standing, grid.margin_left, at)}));
        at += pt(pitch);
    }
    Group body = table.take();
    for (Item& item : body.items) whole.items.push_back(std::move(item));
    composer.add(std::move(whole));
    const Paper close = at - pt(pitch) + pt(rule_below_row);
    composer.add(rule(tools, grid.left, grid.margin_right, close));
    composer.y = close;
    Paper next = close + pt(row_below_rule);
    for (const Text& note : block.notes) {
        composer.y = next;
        place_flowing(composer, {tools, note, {.type = TypeRole::Small, .colour = ColourRole::Grey}, grid.wide_right - grid.left},
                      grid.left, frame::Role::Note, [&](Group lines) { composer.add(std::move(lines)); },
                      [&] { turn_page(composer, block.opening.label); });
        next = composer.y + tools.layout.type(TypeRole::Small).leading;
    }
    composer.y = composer.on_grid(composer.y + grid.baseline_step);
}

Paper parameters_height(const Composer& composer, const report::PositioningOpening& block) {
    Paper height =
        pt(head_room + rule_below_row + parameter_pitch(composer) * static_cast<double>(block.parameters.size()));
    const Paper width = composer.grid().wide_right - composer.grid().left;
    constexpr double note_height = 12;
    for (const Text& note : block.notes) height += pt(note_height) + paragraph_height(composer.tools(), note, {}, width);
    return height;
}

/// The layout's height, or less where that keeps figure and table on one page, or more where the page would end early.
Paper main_plot_height(const Composer& composer, const report::PositioningOpening& block, Paper top, std::size_t strips) {
    const Paper usual = composer.tools().layout.size(SizeRole::MainPlotHeight), step = composer.grid().baseline_step;
    const Paper below = plot::strips_height(composer.tools(), strips) + pt(parameters_below) + step + parameters_height(composer, block) +
                        (block.run_order ? plot::run_order_height(*block.run_order) : Paper{});
    const Paper room = step * std::floor((composer.last_baseline() - top - below) / step);
    constexpr double lowest_plot = 84, most_empty = 0.25;
    const Paper least = std::min(usual, pt(lowest_plot));
    if (room < least) return usual;
    const Paper allowed_empty = (composer.last_baseline() - composer.grid().first_baseline) * most_empty - step * 3;
    return std::min(room, std::max(usual, room - allowed_empty));
}

void place_margin(Composer& composer, const report::PositioningOpening& block, plot::DrawnFigure& drawn, Paper plot_top) {
    margin_caption(composer, drawn.group, block.figure_number, block.caption, plot_top + pt(beside_top));
    Paper anchor = drawn.bracket_top + pt(value_below_bracket);
    for (const report::MarginValue& value : block.values) anchor = margin_value(composer, value, anchor) + pt(between_values);
    Key key = key_of(block.plot, block.runs_per_direction);
    key.readings_page = composer.page_of("readings-" + block.plot.series_id);
    margin_key(composer, key, composer.margin_free() + pt(key_below_values));
    constexpr double below_key = 6;  // a value beside a low figure follows the key at once
    composer.margin_free() += pt(below_key);
    if (drawn.reversal_top) margin_value(composer, block.reversal, *drawn.reversal_top + pt(value_in_strip));
    if (drawn.repeatability_top) margin_value(composer, block.repeatability, *drawn.repeatability_top + pt(value_in_strip));
}

/// The order of the runs below the figure, with its words in the margin. Returns its lower end.
Paper place_run_order(Composer& composer, const report::RunOrder& order, const plot::DrawnFigure& above) {
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    const Paper top = above.bottom + pt(plot::run_means_below);
    plot::DrawnFigure drawn = plot::run_order_figure(tools, order, grid.left, above.plot_left, above.plot_right, top);
    constexpr double first_words = 7, words_after_line = 28, line_width = 22;
    margin_notes(composer, "", order.words, top + pt(first_words));
    const Paper temperatures = top + pt(plot::run_means_height + plot::temperatures_below);
    Paper at = std::max(composer.margin_free(), temperatures) + pt(first_words);
    const auto pens = {PenRole::Record, PenRole::SecondRecord};
    for (const report::RecordPanel& panel : order.record.panels)
        for (std::size_t i = 0; i < panel.curves.size() && i < pens.size(); ++i) {
            const Paper middle = at - pt(plot::half_figure);
            const Paper line_end = grid.margin_left + pt(line_width);
            composer.add(artifact({plot::line(tools, pens.begin()[i], {grid.margin_left, middle}, {line_end, middle})}));
            composer.add(text_line(tools, panel.curves[i].words, {}, {grid.margin_left + pt(words_after_line), at}, Align::Left,
                                   frame::Role::Paragraph));
            composer.margin_free() = std::max(composer.margin_free(), at + pt(first_words));
            at += tools.layout.type(TypeRole::Small).leading + pt(2);
        }
    const Paper bottom = drawn.bottom;
    composer.add(std::move(drawn.group));
    return bottom;
}

}  // namespace

void place(Composer& composer, const report::PositioningOpening& block) {
    const auto& grid = composer.grid();
    const Paper beside = place_opening(composer, block.opening);
    margin_verdict(composer, block.verdict, beside, block.verdict.explanation);
    if (report::mean_curve_of(block.plot).empty()) {  // only stated values: there is nothing to draw
        place_parameters(composer, block);
        return;
    }
    constexpr double title_above_plot = 12;
    const Paper plot_top = composer.on_grid(composer.y + pt(title_above_plot));
    const auto strips = plot::supported_strips(block.plot);
    const Paper main_height = main_plot_height(composer, block, plot_top, strips.size());
    plot::DrawnFigure drawn =
        plot::error_figure(composer.tools(), block.plot, strips, {grid.left, plot_top, grid.wide_right - grid.left, main_height});
    place_margin(composer, block, drawn, plot_top);
    composer.add(std::move(drawn.group));
    drawn.group = {};
    const Paper bottom = block.run_order ? place_run_order(composer, *block.run_order, drawn) : drawn.bottom;
    composer.y = composer.on_grid(bottom + pt(parameters_below));
    if (!composer.fits(parameters_height(composer, block))) turn_page(composer, block.opening.label);
    place_parameters(composer, block);
}

}  // namespace wayfolio::page
