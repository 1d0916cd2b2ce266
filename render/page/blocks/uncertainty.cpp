#include "page/blocks/blocks.hpp"

#include "page/blocks/section_parts.hpp"
#include "page/flowing.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "page/table.hpp"
#include "plot/figures/figures.hpp"
#include "plot/shapes.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::page {
namespace {

constexpr double budget_row = 21.5, made_of_below = 9.5, contribution_at = 158, bar_left = 178, bar_right = 292, bar_height = 4.8,
                 bar_raise = 5;
constexpr double row_to_rule = 5.5, note_gap = 3, around_rows = 60;  // around_rows: head, foot and their rules

/// Where the longest bar ends: 50 %, or the next 10 % above the largest share.
double bar_reach(const report::Budget& budget) {
    double most = 0;
    for (const report::BudgetRow& row : budget.rows) most = std::max(most, row.share_of_variance);
    constexpr double usual = 0.5, step = 0.1;
    return std::max(usual, std::ceil(most / step - 1e-9) * step);
}

std::vector<Column> budget_columns(const layouts::PaperGrid& grid) {
    return {{grid.left, ColumnAlign::Left},
            {grid.left + pt(contribution_at), ColumnAlign::Decimal},
            {grid.wide_right, ColumnAlign::Right},
            {grid.margin_left, ColumnAlign::Left}};
}

void place_budget_head(Composer& composer, const report::Budget& budget, Table& table) {
    const auto& grid = composer.grid();
    const Paper at = composer.y;
    table.head({Text("Input quantity"), budget.contribution_head, Text("share of the variance"), Text("Basis")}, at);
    composer.add(rule(composer.tools(), grid.left, grid.margin_right, at + pt(rule_below_row)));
    composer.y = at + pt(head_room);
}

constexpr double name_width = 130;  // numbers begin behind it

/// Name and basis of a row, broken into lines. What a quantity is made of stands under its name.
struct BudgetLines {
    FlowingText name, basis;
    [[nodiscard]] std::size_t most() const { return std::max(name.size() + 1, basis.size()); }
    [[nodiscard]] Paper height() const {
        const auto down = [](const FlowingText& text) { return text.leading() * (static_cast<double>(text.size()) - 1); };
        return std::max(down(name) + pt(budget_row), down(basis) + pt(budget_row - made_of_below));
    }
};

BudgetLines lines_of_budget(const Composer& composer, const report::BudgetRow& row) {
    const Paper margin = composer.grid().margin_right - composer.grid().margin_left;
    return {{composer.tools(), row.name, {}, pt(name_width)}, {composer.tools(), row.basis, {}, margin}};
}

/// The lines of a row from `from` on that stand on one page: name with what it is made of below; contribution, bar and share on its first
/// line; the basis in the margin column.
void place_budget_row(Composer& composer, const report::BudgetRow& row, const BudgetLines& lines, std::size_t from, std::size_t end,
                      double reach, Table& table) {
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    const Paper at = composer.y;
    table.row({}, at);
    const auto cell = [&](frame::Role role, std::vector<Item> items) {
        Group made = plot::grouped(role, std::move(items));
        if (role == frame::Role::HeadCell) made.scope = frame::Scope::Row;
        table.add_to_last_row(std::move(made));
    };
    const auto line = [&](const Text& words, const Look& look, Point point, Align align) {
        return text_line(tools, words, look, point, align, frame::Role::Paragraph);
    };
    Placed name = lines.name.part(from, end, {grid.left, at}, frame::Role::Paragraph);
    std::vector<Item> named;
    if (name.lines > 0) named.emplace_back(std::move(name.group));
    if (from <= lines.name.size() && lines.name.size() < end)
        named.emplace_back(line(row.made_of, {.colour = ColourRole::Grey}, {grid.left, name.last + pt(made_of_below)}, Align::Left));
    // Where a row goes on, its name is on the page before.
    cell(named.empty() ? frame::Role::DataCell : frame::Role::HeadCell, std::move(named));
    std::vector<Item> number, share;
    if (from == 0) {
        put_decimal(number, tools, row.contribution, {}, {grid.left + pt(contribution_at), at});
        share.emplace_back(line(row.share, {}, {grid.wide_right, at}, Align::Right));
        constexpr double least = 0.5;
        const Paper width = std::max(pt(least), pt(bar_right - bar_left) * (row.share_of_variance / reach));
        composer.add(
            artifact({plot::rectangle(tools, ColourRole::Grey, {grid.left + pt(bar_left), at - pt(bar_raise), width, pt(bar_height)})}));
    }
    cell(frame::Role::DataCell, std::move(number));
    cell(frame::Role::DataCell, std::move(share));
    cell(frame::Role::DataCell, {lines.basis.part(from, end, {grid.margin_left, at}, frame::Role::Paragraph).group});
}

void place_budget_foot(Composer& composer, const report::Budget& budget, Table& table) {
    const auto& grid = composer.grid();
    constexpr double pitch = 13;
    const Paper line = composer.y - pt(budget_row - made_of_below - row_to_rule);
    composer.add(rule(composer.tools(), grid.left, grid.margin_right, line));
    Paper at = line + pt(row_below_rule);
    table.row({Text("Combined"), budget.combined, Text(), Text()}, at);
    at += pt(pitch);
    table.row({budget.expanded_name, budget.expanded, Text(), budget.coverage}, at);
    composer.y = at;
}

/// What fits on a page under its head.
Paper page_room(const Composer& composer) {
    constexpr double heads = 60;  // "continued" and the head of the table
    return composer.last_baseline() - composer.grid().first_baseline - pt(heads);
}

void place_budget(Composer& composer, const report::Budget& budget, const std::string& label) {
    const auto& grid = composer.grid();
    const double reach = bar_reach(budget);
    Table table(composer.tools(), budget_columns(grid));
    table.begin(budget.key);
    place_budget_head(composer, budget, table);
    const auto go_on = [&] {
        composer.add(table.take());
        turn_page(composer, label);
        table.begin(budget.key);
        place_budget_head(composer, budget, table);
    };
    for (const report::BudgetRow& row : budget.rows) {
        const BudgetLines lines = lines_of_budget(composer, row);
        const bool higher_than_page = lines.height() > page_room(composer);
        if (!composer.fits(lines.height()) && !higher_than_page) go_on();
        std::size_t here = higher_than_page ? lines_here(composer, lines.most(), lines.name.leading()) : lines.most();
        for (std::size_t from = 0; from < lines.most(); from += here) {
            if (here == 0 || from > 0) {
                go_on();
                here = lines_on_next(composer, lines.most() - from, lines.name.leading());
            }
            place_budget_row(composer, row, lines, from, from + here, reach, table);
            composer.y += higher_than_page ? lines.name.leading() * static_cast<double>(here) : lines.height();
        }
    }
    constexpr double foot_height = 20;
    if (!composer.fits(pt(foot_height))) go_on();
    place_budget_foot(composer, budget, table);
    composer.add(table.take());
    composer.y += pt(row_below_rule + note_gap);
    for (const Text& note : budget.notes) {
        place_flowing(composer, {composer.tools(), note, {.colour = ColourRole::Grey}, grid.wide_right - grid.left}, grid.left,
                      frame::Role::Note, [&](Group lines) { composer.add(std::move(lines)); }, [&] { turn_page(composer, label); });
        composer.y += composer.tools().layout.type(TypeRole::Small).leading + pt(note_gap);
    }
    composer.y = composer.on_grid(composer.y + pt(section_below));
}

/// Height of a budget's table with its head, foot and notes.
Paper budget_height(const Composer& composer, const report::Budget& budget) {
    Paper height = pt(around_rows);
    for (const report::BudgetRow& row : budget.rows) height += lines_of_budget(composer, row).height();
    for (const Text& note : budget.notes)
        height += paragraph_height(composer.tools(), note, {}, composer.grid().wide_right - composer.grid().left) +
                  composer.tools().layout.type(TypeRole::Small).leading + pt(note_gap);
    return height;
}

void need(Composer& composer, Paper height, const std::string& label) {
    if (composer.fits(height)) return;
    turn_page(composer, label);
}

void place_heading(Composer& composer, const std::string& words) {
    composer.add(text_line(composer.tools(), Text().strong(words), {.type = TypeRole::Body}, {composer.grid().left, composer.y},
                           Align::Left, frame::Role::Heading2));
    composer.y += pt(heading_below);
}

void place_decision(Composer& composer, const report::Uncertainty& block) {
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    constexpr double figure_gap = 16, verdict_at = 30;  // the verdict stands level with the value
    const Paper words = paragraph_height(tools, block.rule_explained, {.type = TypeRole::Body}, grid.wide_right - grid.left) +
                        pt(heading_below + figure_gap);
    need(composer, composer.on_grid(composer.y + words) - composer.y + plot::decision_height(), block.opening.label);
    const Paper heading = composer.y;
    place_heading(composer, block.rule_heading);
    place_flowing(composer, {tools, block.rule_explained, {.type = TypeRole::Body}, grid.wide_right - grid.left}, grid.left,
                  frame::Role::Paragraph, [&](Group lines) { composer.add(std::move(lines)); },
                  [&] { turn_page(composer, block.opening.label); });
    need(composer, pt(figure_gap) + plot::decision_height(), block.opening.label);
    const Paper top = composer.on_grid(composer.y + pt(figure_gap));
    plot::DrawnFigure drawn = plot::decision_figure(tools, *block.decision, grid.left, grid.wide_right, top);
    composer.margin_free() = std::max(composer.margin_free(), heading - grid.baseline_step);
    const bool guarded = !block.decision->edges.empty();
    margin_caption(composer, drawn.group, block.figure_number,
                   Text("The rule at this limit." + std::string(guarded ? " Hatched: guard band." : "")), heading);
    margin_verdict(composer, block.decision->verdict, top + pt(verdict_at), block.decision->margins);
    composer.add(std::move(drawn.group));
    composer.y = composer.on_grid(std::max(drawn.bottom + pt(figure_below), composer.margin_free() + grid.baseline_step));
}

}  // namespace

void place(Composer& composer, const report::Uncertainty& block) {
    place_opening(composer, block.opening);
    const auto place_one = [&](const report::Budget& budget) {
        constexpr double page_heads = 36;  // "continued" and its gap on a page of its own
        // A budget that fits on one page is not broken.
        const Paper page = composer.last_baseline() - composer.grid().first_baseline - pt(heading_below + page_heads);
        need(composer, std::min(budget_height(composer, budget) + pt(heading_below), page), block.opening.label);
        place_heading(composer, budget.heading);
        place_budget(composer, budget, block.opening.label);
    };
    if (!block.budgets.empty()) place_one(block.budgets.front());
    if (block.decision) place_decision(composer, block);
    for (std::size_t i = 1; i < block.budgets.size(); ++i) place_one(block.budgets[i]);
    for (const report::Section& section : block.sections) place_section(composer, section, block.opening.label);
}

}  // namespace wayfolio::page
