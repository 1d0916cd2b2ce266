#include "page/blocks/blocks.hpp"

#include "page/blocks/section_parts.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "page/table.hpp"
#include "plot/figures/figures.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::page {
namespace {

constexpr double predicted_height = 180, set_gap = 24;

void place_predicted(Composer& composer, const report::Compensation& block) {
    const auto& grid = composer.grid();
    const Paper top = composer.on_grid(composer.y + pt(title_above));
    plot::DrawnFigure drawn =
        plot::error_figure(composer.tools(), *block.predicted, {}, {grid.left, top, grid.wide_right - grid.left, pt(predicted_height)});
    const Paper caption = margin_caption(composer, drawn.group, block.figure_number, block.caption, top + pt(beside_top));
    constexpr double values_below = 22, between_values = 16, key_below = 14;
    Paper anchor = caption + pt(values_below);
    for (const report::MarginValue& value : block.values) anchor = margin_value(composer, value, anchor) + pt(between_values);
    margin_key(composer, key_of(*block.predicted, 0), composer.margin_free() + pt(key_below));
    composer.add(std::move(drawn.group));
    composer.y = composer.on_grid(std::max(drawn.bottom + pt(figure_below), composer.margin_free() + composer.grid().baseline_step));
}

/// Sets of columns side by side over the whole width. A page is filled set by set, so that a column reads downwards.
struct PointSets {
    const Composer& composer;
    const report::PlainTable& points;
    std::vector<Paper> widths;  ///< of each column of one set
    std::size_t across = 1;

    [[nodiscard]] Paper set_width() const {
        Paper sum{};
        for (const Paper width : widths) sum += width;
        return sum;
    }
    [[nodiscard]] Paper left_of(std::size_t set) const {
        return composer.grid().left + (set_width() + pt(set_gap)) * static_cast<double>(set);
    }
    [[nodiscard]] std::vector<Column> columns(std::size_t set) const {
        std::vector<Column> made;
        Paper right = left_of(set);
        for (const Paper width : widths) made.push_back({right += width, ColumnAlign::Right});
        return made;
    }
};

PointSets point_sets(const Composer& composer, const report::PlainTable& points) {
    PointSets sets{.composer = composer, .points = points, .widths = {}};
    constexpr double between = 14;
    for (std::size_t column = 0; column < points.columns.size(); ++column) {
        Paper width = plot::width_of(composer.tools(), points.columns[column].head, {});
        for (const auto& row : points.rows) width = std::max(width, plot::width_of(composer.tools(), row[column], {}));
        sets.widths.push_back(width + (column == 0 ? Paper{} : pt(between)));
    }
    const Paper room = composer.grid().margin_right - composer.grid().left;
    const double fitting = std::floor((room + pt(set_gap)) / (sets.set_width() + pt(set_gap)));
    sets.across = static_cast<std::size_t>(std::max(1.0, fitting));
    return sets;
}

/// One set on one page; all sets together are one table.
void place_set(Composer& composer, const PointSets& sets, std::size_t set, std::size_t first, std::size_t end, const std::string& key) {
    Table table(composer.tools(), sets.columns(set));
    table.begin(key);
    std::vector<Text> heads;
    for (const report::TableColumn& column : sets.points.columns) heads.emplace_back(column.head);
    table.head(heads, composer.y);
    const Paper left = sets.left_of(set), right = left + sets.set_width(), pitch = composer.tools().layout.size(SizeRole::TightRowPitch);
    Paper at = composer.y + pt(head_room);
    for (std::size_t i = first; i < end; ++i, at += pitch) table.row(sets.points.rows[i], at);
    composer.add(table.take());
    composer.add(rule(composer.tools(), left, right, composer.y + pt(rule_below_row)));
    composer.add(rule(composer.tools(), left, right, at - pitch + pt(rule_below_row)));
}

/// Rows that fit below a head at the composer's baseline.
std::size_t rows_left(const Composer& composer, Paper pitch) {
    const Paper room = composer.last_baseline() - composer.y - pt(head_room);
    return room < Paper{} ? 0 : static_cast<std::size_t>(std::floor(room / pitch + 1e-6)) + 1;
}

void place_points(Composer& composer, const report::Compensation& block) {
    const PointSets sets = point_sets(composer, block.points);
    const Paper pitch = composer.tools().layout.size(SizeRole::TightRowPitch);
    const std::size_t total = block.points.rows.size();
    const auto rows_needed = [&](std::size_t placed) { return (total - placed + sets.across - 1) / sets.across; };
    constexpr double heading_room = 18;
    constexpr std::size_t rows_with_heading = 6;
    if (rows_left(composer, pitch) < std::min(rows_with_heading, rows_needed(0) + 1)) turn_page(composer, block.opening.label);
    composer.add(text_line(composer.tools(), Text().strong(block.points_heading), {.type = TypeRole::Body},
                           {composer.grid().left, composer.y}, Align::Left, frame::Role::Heading2));
    composer.y += pt(heading_room);
    for (std::size_t placed = 0; placed < total;) {
        if (placed > 0) turn_page(composer, block.opening.label);
        const std::size_t rows = std::min(rows_needed(placed), std::max<std::size_t>(1, rows_left(composer, pitch)));
        for (std::size_t set = 0; set < sets.across && placed < total; ++set) {
            const std::size_t end = std::min(total, placed + rows);
            place_set(composer, sets, set, placed, end, block.opening.anchor + "-points");
            placed = end;
        }
        composer.y = composer.on_grid(composer.y + pt(head_room) + pitch * static_cast<double>(rows));
    }
}

}  // namespace

void place(Composer& composer, const report::Compensation& block) {
    place_opening(composer, block.opening);
    if (block.predicted) place_predicted(composer, block);
    for (const report::Section& section : block.sections) place_section(composer, section, block.opening.label);
    if (!block.points.rows.empty()) place_points(composer, block);
}

}  // namespace wayfolio::page
