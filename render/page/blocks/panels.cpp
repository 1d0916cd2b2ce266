#include "page/blocks/blocks.hpp"

#include "page/blocks/sections/section_parts.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "page/table.hpp"
#include "plot/figures/figures.hpp"
#include "plot/marks/axes.hpp"
#include "plot/marks/curves.hpp"
#include "plot/spacing.hpp"

#include <algorithm>
#include <utility>

namespace wayfolio::page {
namespace {

constexpr double panel_bracket_room = 14, heading_above = 13;

/// The small table beside a panel; numbers align on the decimal mark.
Paper place_panel_table(Composer& composer, const report::Panel& panel, Paper anchor) {
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    constexpr double whole_numbers_end = 88, row = 10.5, table_below = 12, rule_at = 5,
                     first_row = 16;  // set closer than a table in the wide column
    const Paper numbers = grid.margin_left + pt(whole_numbers_end);
    Paper at = std::max(anchor, composer.margin_free() + pt(table_below));
    Table table(tools, {{grid.margin_left, ColumnAlign::Left}, {numbers, ColumnAlign::Decimal}});
    table.begin("");
    Group title = table.head_cell(Text(panel.table_title), 0, at);
    title.column_span = 2;
    table.add_head({std::move(title)});
    composer.add(rule(tools, grid.margin_left, grid.margin_right, at + pt(rule_at)));
    at += pt(first_row);
    for (const auto& [name, value] : panel.rows) {
        table.row({name, value}, at);
        at += pt(row);
    }
    composer.add(table.take());
    at += pt(rule_at - row);
    composer.add(rule(tools, grid.margin_left, grid.margin_right, at));
    composer.margin_free() = at + pt(beside_top);
    return at;
}

using plot::Extent;
using plot::Ticks;

/// What panels on one scale share.
struct Sisters {
    Ticks ticks;
    Extent positions;
    Paper plot_left, radius;
};


Sisters sisters_of(const Composer& composer, const report::Panels& block) {
    std::vector<const report::DeviationPlot*> plots;
    std::size_t most_targets = 0;
    for (const report::Panel& panel : block.panels) {
        plots.push_back(&panel.plot);
        most_targets = std::max(most_targets, panel.plot.targets.size());
    }
    constexpr int most_ticks = 5;
    constexpr double smaller = 0.1;  // than in the main plot
    Ticks ticks = plot::shared_ticks(plots, most_ticks);
    const Paper room = std::max(composer.tools().layout.size(SizeRole::TickLabelRoom), plot::marks::y_label_room(composer.tools(), ticks));
    const Paper left = composer.grid().left + room, right = composer.grid().wide_right - pt(panel_bracket_room);
    const Paper radius =
        plot::marks::marker_radius(composer.tools().layout.size(SizeRole::MarkerRadius) - pt(smaller), right - left, most_targets);
    return {std::move(ticks), plot::shared_positions(plots), left, radius};
}

/// Three panels fill a page at the layout's height; two that begin a page grow, up to the height of seven eighths of a main plot.
/// Panels with tables below them are a quarter lower, those of an additional result are lower still.
Paper panel_height(const Composer& composer, const report::Panels& block, bool begins_page) {
    const auto size = [&](SizeRole role) { return composer.tools().layout.size(role); };
    constexpr double above_tables = 0.75, of_additional = 0.4;
    if (block.additional) return size(SizeRole::PanelHeight) * of_additional;
    if (!block.sections.empty()) return size(SizeRole::PanelHeight) * above_tables;
    if (!begins_page || block.panels.size() < 2) return size(SizeRole::PanelHeight);
    const std::size_t panels = block.panels.size();
    constexpr double usual_panels = 3, of_main_plot = 0.875;
    const double count = static_cast<double>(panels);
    const Paper shared = (size(SizeRole::PanelHeight) * usual_panels + size(SizeRole::PanelGap) * (usual_panels - count)) / count;
    return std::clamp(shared, size(SizeRole::PanelHeight),
                      std::max(size(SizeRole::PanelHeight), size(SizeRole::MainPlotHeight) * of_main_plot));
}

/// From the first to the last baseline of what stands below the panels, when it fits on one page.
Paper sections_height(const Composer& composer, const report::Panels& block) {
    const PageNumbers none;
    Composer trial(composer.tools(), none);
    trial.new_page();
    const Paper begun = trial.y;
    place_sections(trial, block.sections, block.opening.label);
    return trial.page_number() == 1 ? trial.last_ink() - begun : Paper{};
}

/// Panels give up to three tenths of their height to keep all of the block on one page.
Paper fitted_height(const Composer& composer, const report::Panels& block, Paper top, Paper gap, bool begins_page) {
    constexpr double below_grid = 4;
    const Paper usual = panel_height(composer, block, begins_page), end = composer.last_baseline();
    const double panels = static_cast<double>(block.panels.size());
    // Without sections the numbers of the last axis hang a little lower than the grid.
    const Paper fits = block.sections.empty()
                           ? (end - pt(below_grid) - top - gap * (panels - 1)) / panels
                           : (end - sections_height(composer, block) - composer.grid().baseline_step - top) / panels - gap;
    const auto allowed = [&](Paper height) { return height < usual && height >= usual * least_panel_share; };
    if (allowed(fits)) return fits;
    // One panel alone leaves room for another block; above tables that end the page nothing is left for one.
    if (begins_page && (panels > 1 || !block.sections.empty()) && fits > usual) {
        constexpr double most_empty = 0.25, most_growth = 1.5;
        const Paper page = end - composer.grid().first_baseline;
        const bool leaves_room = block.sections.empty() || block.additional;
        const Paper kept_empty = leaves_room ? (page * most_empty - composer.grid().baseline_step) / panels : Paper{};
        return std::max(usual, std::min(fits - kept_empty, usual * most_growth));
    }
    // The first one stands with the opening; the others may go on.
    const Paper one = end - pt(below_grid) - pt(plot::axis_room) - top;
    return allowed(one) ? one : usual;
}

/// The panel's name, where links to its series lead, and what it shows.
void place_panel_heading(Composer& composer, const report::Panels& block, const report::Panel& panel, Paper top) {
    const Tools& tools = composer.tools();
    const Paper left = composer.grid().left, baseline = top - pt(heading_above);
    composer.set_anchor(panel.anchor);
    Group heading = plot::grouped(frame::Role::Heading2, {});
    heading.anchor = panel.anchor == block.opening.anchor ? "" : panel.anchor;
    const Look name_look{.type = TypeRole::Body};
    const Paper name_width = plot::width_of(tools, Text().strong(panel.name), name_look);
    // With a space, for those who hear it or copy it.
    plot::put(heading.items, tools, Text().strong(panel.name + " "), name_look, {left, baseline});
    plot::put(heading.items, tools, panel.title, {.colour = ColourRole::Grey}, {left + name_width + pt(words_gap), baseline});
    composer.add(std::move(heading));
}

plot::PanelPlace panel_place(const layouts::PaperGrid& grid, const Sisters& sisters, const report::Panel& panel, Paper top, Paper height,
                             bool last) {
    return {.left = grid.left,
            .right = grid.wide_right - pt(panel_bracket_room),
            .top = top,
            .height = height,
            .plot_left = sisters.plot_left,
            .ticks = sisters.ticks,
            .positions = sisters.positions,
            .x_numbers = last,
            .marker_radius = sisters.radius,
            .x_title = Text(panel.plot.axis_name + " / " + std::string(panel.plot.position_unit.symbol)),
            .direct_labels = true};
}

bool has_curve(const report::Panel& panel) { return !mean_curve_of(panel.plot).empty(); }

/// Takes the caption's place beside the panels and gives it to the figure it belongs to; the key follows it.
std::vector<Item> place_caption(Composer& composer, const report::Panels& block, Paper beside) {
    constexpr double key_below = 10;
    Group figure;
    margin_caption(composer, figure, block.figure_number, block.caption, beside);
    Key key = key_of(block.panels.front().plot, block.runs_per_direction);
    key.excluded = block.excluded;
    margin_key(composer, key, composer.margin_free() + pt(key_below));
    return std::move(figure.items);
}

/// Verdict, table and notes in the margin column.
void place_beside_panel(Composer& composer, const report::Panel& panel, Paper top) {
    constexpr double rows_below_verdict = 14;
    const std::vector<Text> spare = panel.verdict.margin.empty() ? std::vector<Text>{} : std::vector<Text>{panel.verdict.margin};
    report::Verdict verdict = panel.verdict;
    verdict.word = verdict.head;  // the margin says the rest
    Paper at = margin_verdict(composer, verdict, top + pt(beside_top), spare);
    if (panel.rows.empty()) at = margin_notes(composer, "", panel.value, at + pt(rows_below_verdict));
    else at = place_panel_table(composer, panel, at + pt(rows_below_verdict));
    if (!panel.notes.empty()) margin_notes(composer, "", panel.notes, at + pt(row_below_rule));
}

}  // namespace

void place(Composer& composer, const report::Panels& block) {
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    const Paper beside = place_opening(composer, block.opening);
    constexpr double past_last_baseline = 12;
    std::vector<Item> caption;  // the first figure carries that of all
    if (!block.figure_number.empty()) caption = place_caption(composer, block, beside);
    const Sisters sisters = sisters_of(composer, block);
    constexpr double close = 0.75;  // panels that are drawn lower stand closer
    const Paper gap = tools.layout.size(SizeRole::PanelGap) * (block.additional ? close : 1);
    Paper top = composer.on_grid(std::max(composer.y, grid.first_baseline) + pt(heading_above));
    const Paper height = fitted_height(composer, block, top, gap, beside == grid.first_baseline);
    const auto past_page = [&](Paper panel_top) {
        return panel_top + height + pt(plot::axis_room) > composer.last_baseline() + pt(past_last_baseline);
    };
    for (std::size_t i = 0; i < block.panels.size(); ++i) {
        const report::Panel& panel = block.panels[i];
        if (past_page(top)) {
            turn_page(composer, block.opening.label);
            top = composer.on_grid(composer.y + pt(heading_above));
        }
        place_panel_heading(composer, block, panel, top);
        const bool drawn = has_curve(panel);
        const bool last = std::none_of(block.panels.begin() + static_cast<std::ptrdiff_t>(i) + 1, block.panels.end(), has_curve);
        if (drawn) {
            Group figure = plot::panel_figure(tools, panel.plot,
                                              panel_place(grid, sisters, panel, top, height, last || past_page(top + height + gap)))
                               .group;
            for (Item& item : std::exchange(caption, {})) figure.items.insert(figure.items.begin(), std::move(item));
            composer.add(std::move(figure));
        }
        place_beside_panel(composer, panel, top);
        top = drawn ? top + height + gap : composer.on_grid(composer.margin_free() + gap);
    }
    composer.y = composer.on_grid(std::max(top, composer.margin_free() + grid.baseline_step));
    place_sections(composer, block.sections, block.opening.label);
}

}  // namespace wayfolio::page
