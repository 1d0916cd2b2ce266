#include "page/blocks/blocks.hpp"

#include "page/margin.hpp"
#include "page/opening.hpp"
#include "page/table.hpp"
#include "plot/figures.hpp"
#include "plot/marks/verdict_symbol.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::page {
namespace {

constexpr double table_below = 14;  // under the figure

/// Columns of the parameter table, right ends measured from the wide column's left; whole numbers end at Decimal columns.
std::vector<Column> parameter_columns(const layouts::PaperGrid& grid) {
    const Paper left = grid.left;
    return {{left, ColumnAlign::Left},          {left + pt(158), ColumnAlign::Decimal}, {left + pt(196), ColumnAlign::Decimal},
            {left + pt(232), ColumnAlign::Decimal}, {left + pt(264), ColumnAlign::Decimal}, {left + pt(293), ColumnAlign::Decimal},
            {grid.wide_right, ColumnAlign::Right}, {grid.margin_left + pt(19), ColumnAlign::Left}};
}

std::vector<Column> parameter_heads(const layouts::PaperGrid& grid) {
    std::vector<Column> columns = parameter_columns(grid);
    constexpr double past_decimal = 12;  // heads end where a figure with two decimals ends
    for (std::size_t i = 1; i <= 5; ++i) columns[i] = {columns[i].x + pt(i == 5 ? 6 : past_decimal), ColumnAlign::Right};
    columns.back().x = grid.margin_left;
    return columns;
}

double row_pitch(const Composer& composer, std::size_t rows) {
    constexpr std::size_t few = 8;
    return composer.tools().layout.size(rows > few ? "tight_row_pitch" : "row_pitch").in(units::point);
}

Paper place_parameters(Composer& composer, const report::PositioningOpening& block) {
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    const double pitch = row_pitch(composer, block.parameters.size());
    Table table(tools, parameter_columns(grid));
    table.begin("");
    Table heads(tools, parameter_heads(grid));
    heads.begin("");
    heads.head({Text("Parameter / " + block.parameter_unit), Text("positive"), Text("negative"), Text("both"), Text().symbol("U"), Text("limit"), Text("targets"), Text("Verdict")}, composer.y);
    Group whole = heads.take();
    std::erase_if(whole.items, [](const Item& item) { return std::get<Group>(item).role == frame::Role::TableBody; });
    composer.add(rule(tools, grid.left, grid.margin_right, composer.y + pt(6)));
    Paper at = composer.y + pt(6 + 13);
    for (const report::ParameterRow& row : block.parameters) {
        table.row({row.name, row.positive, row.negative, row.both, row.U, row.limit, row.targets, row.verdict.short_form}, at);
        composer.add(artifact({plot::marks::verdict_symbol(tools, row.verdict.symbol, grid.margin_left, at)}));
        at += pt(pitch);
    }
    Group body = table.take();
    for (Item& item : body.items) whole.items.push_back(std::move(item));
    composer.add(std::move(whole));
    const Paper close = at - pt(pitch) + pt(6);
    composer.add(rule(tools, grid.left, grid.margin_right, close));
    Paper last = close;
    Paper next = close + pt(13);
    for (const Text& note : block.notes) {
        Placed placed = paragraph(tools, note, {.type = "small", .colour = "grey"}, {grid.left, next}, grid.wide_right - grid.left, frame::Role::Note);
        composer.add(std::move(placed.group));
        last = placed.last;
        next = last + tools.layout.type_role("small").leading;
    }
    return last;
}

Paper parameters_height(const Composer& composer, const report::PositioningOpening& block) {
    Paper height = pt(19 + 6 + row_pitch(composer, block.parameters.size()) * static_cast<double>(block.parameters.size()));
    const Paper width = composer.grid().wide_right - composer.grid().left;
    for (const Text& note : block.notes) height += pt(12) + paragraph_height(composer.tools(), note, {}, width);
    return height;
}

/// The layout's height, or less where that keeps figure and table on one page; never lower than a panel of small multiples.
Paper main_plot_height(const Composer& composer, const report::PositioningOpening& block, Paper top, std::size_t strips) {
    const Paper usual = composer.tools().layout.size("main_plot_height"), step = composer.grid().baseline_step;
    const Paper below = plot::strips_height(composer.tools(), strips) + pt(table_below) + step + parameters_height(composer, block);
    const Paper room = step * std::floor((composer.last_baseline() - top - below) / step);
    const Paper least = composer.tools().layout.size("panel_height");
    return room >= least ? std::min(room, usual) : usual;
}

void place_margin(Composer& composer, const report::PositioningOpening& block, const plot::DrawnFigure& drawn, Paper plot_top) {
    margin_caption(composer, block.figure_number, block.caption, plot_top + pt(4));
    Paper anchor = drawn.bracket_top + pt(9);
    for (const report::MarginValue& value : block.values) anchor = margin_value(composer, value, anchor) + pt(18);
    Key key = key_of(block.plot, block.runs_per_direction);
    key.readings_page = composer.page_of("readings-" + block.plot.series_id);
    margin_key(composer, key, composer.margin_free() + pt(20));
    constexpr double below_key = 6;  // a value beside a low figure follows the key at once
    composer.margin_free() += pt(below_key);
    if (drawn.reversal_top) margin_value(composer, block.reversal, *drawn.reversal_top + pt(11));
    if (drawn.repeatability_top) margin_value(composer, block.repeatability, *drawn.repeatability_top + pt(11));
}

}  // namespace

void place(Composer& composer, const report::PositioningOpening& block) {
    const auto& grid = composer.grid();
    place_opening(composer, block.opening);
    margin_verdict(composer, block.verdict, grid.first_baseline, block.verdict.explanation);
    constexpr double title_above_plot = 12;
    const Paper plot_top = composer.on_grid(composer.y + pt(title_above_plot));
    const auto strips = plot::supported_strips(block.plot);
    const Paper main_height = main_plot_height(composer, block, plot_top, strips.size());
    plot::DrawnFigure drawn = plot::error_figure(composer.tools(), block.plot, strips, {grid.left, plot_top, grid.wide_right - grid.left, main_height});
    place_margin(composer, block, drawn, plot_top);
    composer.add(std::move(drawn.group));
    composer.y = composer.on_grid(drawn.bottom + pt(table_below));
    if (!composer.fits(parameters_height(composer, block))) {
        composer.new_page();
        place_continued(composer, block.opening.label);
    }
    composer.y = place_parameters(composer, block);
}

}  // namespace wayfolio::page
