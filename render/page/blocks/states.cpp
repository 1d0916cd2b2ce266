#include "page/blocks/blocks.hpp"

#include "page/flowing.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "page/table.hpp"
#include "plot/figures/figures.hpp"
#include "plot/marks/axes.hpp"
#include "plot/marks/curves.hpp"
#include "plot/marks/verdict_symbol.hpp"
#include "plot/spacing.hpp"

#include <algorithm>
#include <utility>

namespace wayfolio::page {
namespace {

constexpr double pair_bracket_room = 34, between_halves = 6;

struct Halves {
    Paper first_left, first_right, second_left, second_right;
};

Halves halves_of(const Composer& composer, Paper label_room) {
    const auto& grid = composer.grid();
    const Paper gap = pt(between_halves), plot_width = (grid.wide_right - grid.left - label_room - gap - pt(pair_bracket_room) * 2) / 2;
    const Paper first = grid.left + label_room, second = first + plot_width + pt(pair_bracket_room) + gap;
    return {first, first + plot_width, second, second + plot_width};
}

Paper place_pair_rows(Composer& composer, const report::StatePair& pair, Paper at) {
    const auto& grid = composer.grid();
    constexpr double indent = 19, values_at = 62, pitch = 11;
    Table table(composer.tools(),
                {{grid.margin_left + pt(indent), ColumnAlign::Left}, {grid.margin_left + pt(values_at), ColumnAlign::Left}});
    table.begin("");
    for (const auto& [name, value] : pair.rows) {
        Placed words = paragraph(composer.tools(), name, {}, {grid.margin_left + pt(indent), at}, pt(values_at - indent - words_gap / 2),
                                 frame::Role::HeadCell);
        words.group.scope = frame::Scope::Row;
        table.add_row({std::move(words.group), table.data_cell(value, 1, at)});
        at = std::max(at, words.last) + pt(pitch);
    }
    composer.add(table.take());
    composer.margin_free() = std::max(composer.margin_free(), at);
    return at;
}

/// @param caption what the figure of the first half begins with
void place_pair(Composer& composer, const report::StatePair& pair, Paper top, Paper height, bool last, std::vector<Item> caption) {
    const Tools& tools = composer.tools();
    const std::vector<const report::DeviationPlot*> plots{&pair.first, &pair.second};
    constexpr int most_ticks = 5;
    const plot::Ticks ticks = plot::shared_ticks(plots, most_ticks);
    const Paper room = std::max(tools.layout.size(SizeRole::TickLabelRoom), plot::marks::y_label_room(tools, ticks));
    const Halves halves = halves_of(composer, room);
    const Paper radius = plot::marks::marker_radius(tools.layout.size(SizeRole::MarkerRadiusSmall), halves.first_right - halves.first_left,
                                                    pair.first.targets.size());
    composer.add(text_line(tools, pair.name, {.colour = ColourRole::Grey}, {composer.grid().left, top - pt(title_above)}, Align::Left,
                           frame::Role::Heading3));
    const auto place_half = [&](const report::DeviationPlot& plot, Paper left, Paper right, bool first, const std::string& number) {
        plot::DrawnFigure drawn =
            plot::panel_figure(tools, plot,
                               {.left = first ? composer.grid().left : left,
                                .right = right,
                                .top = top,
                                .height = height,
                                .plot_left = left,
                                .ticks = ticks,
                                .positions = plot::shared_positions(plots),
                                .x_numbers = last,
                                .y_numbers = first,
                                .marker_radius = radius,
                                .x_title = first ? Text(plot.axis_name + " / " + std::string(plot.position_unit.symbol)) : Text(),
                                .bracket_number = number});
        if (first) drawn.group.items.insert(drawn.group.items.begin(), caption.begin(), caption.end());
        composer.add(std::move(drawn.group));
    };
    place_half(pair.first, halves.first_left, halves.first_right, true, pair.first_number);
    place_half(pair.second, halves.second_left, halves.second_right, false, pair.second_number);
    const Paper at = margin_verdict(composer, pair.verdict, top + pt(beside_top), {});
    place_pair_rows(composer, pair, at + pt(row_below_rule));
}

std::vector<Column> change_columns(const layouts::PaperGrid& grid) {
    const auto number = [&](double x) { return Column{grid.left + pt(x), ColumnAlign::Decimal}; };
    const Column words{grid.margin_left + pt(2 * symbol_room), ColumnAlign::Left};  // behind the symbols of both verdicts
    return {{grid.left, ColumnAlign::Left}, number(140), number(184), number(226), number(282), number(324), words};
}

std::vector<Column> change_heads(const layouts::PaperGrid& grid) {
    std::vector<Column> heads = change_columns(grid);
    for (Column& head : heads)
        if (head.align == ColumnAlign::Decimal) head = {head.x + pt(past_decimal), ColumnAlign::Right};
    heads.back().x = grid.margin_left;
    return heads;
}

/// A head that wraps where a state has a long name; `lowest` goes to its last baseline.
Group change_head(Composer& composer, const Table& table, const Text& words, std::size_t column, Paper& lowest) {
    const Tools& tools = composer.tools();
    const Look grey{.type = TypeRole::Small, .colour = ColourRole::Grey};
    const Column place = change_heads(composer.grid())[column];
    constexpr double number_room = 44;
    const bool at_left = place.align == ColumnAlign::Left;
    const Paper room = column == 0 ? pt(number_room) * 2 : at_left ? composer.grid().margin_right - place.x : pt(number_room);
    if (plot::width_of(tools, words, grey) <= room) return table.head_cell(words, column, composer.y);
    Placed wrapped = paragraph(tools, words, grey, {at_left ? place.x : place.x - room, composer.y}, room, frame::Role::HeadCell);
    wrapped.group.scope = frame::Scope::Column;
    lowest = std::max(lowest, wrapped.last);
    return std::move(wrapped.group);
}

Group changes_head(Composer& composer, const report::States& block) {
    const auto& grid = composer.grid();
    Table head(composer.tools(), change_heads(grid));
    head.begin("");
    const std::vector<Text> words{Text("Quantity"), Text(block.first_head), Text(block.second_head), Text("change"),
                                  report::marked("*U* of change"), Text("limit"),
                                  Text("Verdict " + block.first_head + ", " + block.second_head)};
    std::vector<Group> cells;
    Paper lowest = composer.y;
    for (std::size_t i = 0; i < words.size(); ++i) cells.push_back(change_head(composer, head, words[i], i, lowest));
    head.add_head(std::move(cells));
    composer.y = lowest + pt(head_room);
    composer.add(rule(composer.tools(), grid.left, grid.margin_right, lowest + pt(rule_below_row)));
    Group made = head.take();
    return std::get<Group>(std::move(made.items.front()));
}

/// Ends the table on this page; composer.y goes to the rule under it.
void close_changes(Composer& composer, Table& table, Group head) {
    Group whole = table.take();
    whole.items.insert(whole.items.begin(), Item(std::move(head)));
    composer.add(std::move(whole));
    composer.y += pt(rule_below_row) - composer.tools().layout.size(SizeRole::RowPitch);
    composer.add(rule(composer.tools(), composer.grid().left, composer.grid().margin_right, composer.y));
}

Paper changes_height(const Composer& composer, const report::States& block) {
    constexpr double around_rows = 34;
    return pt(around_rows) + composer.tools().layout.size(SizeRole::RowPitch) * static_cast<double>(block.changes.size());
}

void place_changes(Composer& composer, const report::States& block) {
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    Table table(tools, change_columns(grid));
    const std::string key = composer.fits(changes_height(composer, block)) ? "" : block.opening.anchor + "-changes";
    const auto begin_table = [&] {
        table.begin(key);
        return changes_head(composer, block);
    };
    Group head = begin_table();
    for (const report::ChangeRow& row : block.changes) {
        if (!composer.fits({})) {
            close_changes(composer, table, std::move(head));
            turn_page(composer, block.opening.label);
            head = begin_table();
        }
        const Paper at = composer.y;
        table.row({row.name, row.first, row.second, row.change, row.U, row.limit, row.words}, at);
        composer.add(artifact({plot::marks::superseded_symbol(tools, row.first_verdict.standing, grid.margin_left, at),
                               plot::marks::verdict_symbol(tools, row.second_verdict.standing, grid.margin_left + pt(symbol_room), at)}));
        composer.y += tools.layout.size(SizeRole::RowPitch);
    }
    close_changes(composer, table, std::move(head));
    for (const Text& note : block.notes) {
        composer.y += pt(row_below_rule);
        place_flowing(composer, {tools, note, {.colour = ColourRole::Grey}, grid.wide_right - grid.left}, grid.left, frame::Role::Note,
                      [&](Group lines) { composer.add(std::move(lines)); }, [&] { turn_page(composer, block.opening.label); });
    }
}

/// The layout's height, or less where that keeps pairs and table on one page; never under two thirds of it.
Paper pair_height(const Composer& composer, const report::States& block, Paper top) {
    const Paper usual = composer.tools().layout.size(SizeRole::PairHeight), gap = composer.tools().layout.size(SizeRole::PairGap);
    const auto pairs = static_cast<double>(block.pairs.size());
    const Paper around = gap * (pairs - 1) + pt(figure_below) + composer.grid().baseline_step + changes_height(composer, block);
    const Paper room = (composer.last_baseline() - top - around) / pairs;
    constexpr double least = 2.0 / 3;
    return room >= usual * least ? std::min(room, usual) : usual;
}

}  // namespace

void place(Composer& composer, const report::States& block) {
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    place_opening(composer, block.opening);
    constexpr double key_below_caption = 16, figures_below_titles = 28, past_last_baseline = 12;
    const Halves halves = halves_of(composer, tools.layout.size(SizeRole::TickLabelRoom));
    Paper titles = composer.y;
    const auto place_title = [&](const std::string& title, Paper left, Paper right) {
        Placed words = paragraph(tools, Text().strong(title), {.type = TypeRole::Body}, {left, composer.y}, right - left,
                                 frame::Role::Heading2);
        titles = std::max(titles, words.last);
        composer.add(std::move(words.group));
    };
    place_title(block.first_title, halves.first_left, halves.first_right);
    place_title(block.second_title, halves.second_left, halves.second_right);
    Group captioned;  // the first half's figure carries the caption of all
    Paper at = margin_caption(composer, captioned, block.figure_number, block.caption, grid.first_baseline);
    if (!block.pairs.empty()) margin_key(composer, key_of(block.pairs[0].first, 0), at + pt(key_below_caption));
    const Paper gap = tools.layout.size(SizeRole::PairGap);
    Paper top = composer.on_grid(titles + pt(figures_below_titles));
    const Paper height = pair_height(composer, block, top);
    const auto past_page = [&](Paper pair_top) {
        return pair_top + height + pt(plot::axis_room) > composer.last_baseline() + pt(past_last_baseline);
    };
    for (std::size_t i = 0; i < block.pairs.size(); ++i) {
        if (past_page(top)) {
            turn_page(composer, block.opening.label);
            top = composer.on_grid(composer.y + pt(title_above));
        }
        const bool last = i + 1 == block.pairs.size() || past_page(top + height + gap);
        place_pair(composer, block.pairs[i], top, height, last, std::exchange(captioned.items, {}));
        top += height + gap;
    }
    composer.y = composer.on_grid(top - gap + pt(figure_below));
    if (!composer.fits(changes_height(composer, block))) turn_page(composer, block.opening.label);
    place_changes(composer, block);
}

}  // namespace wayfolio::page
