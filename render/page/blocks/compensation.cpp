#include "page/blocks/blocks.hpp"

#include "page/blocks/sections/section_parts.hpp"
#include "page/flowing.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "page/table.hpp"
#include "plot/figures/figures.hpp"
#include "plot/shapes.hpp"
#include "plot/spacing.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::page {
namespace {

constexpr double figure_height = 318, set_gap = 16, points_heading_room = 18;

/// What was measured and what is predicted, beside the figure.
Paper place_values(Composer& composer, const report::Compensation& block, Paper at) {
    const auto& grid = composer.grid();
    constexpr double column = 37, value_pitch = 12;
    std::vector<Column> columns{{grid.margin_left}};
    const std::size_t count = block.values.columns.size();
    for (std::size_t i = 1; i < count; ++i)
        columns.push_back({grid.margin_right - pt(column) * static_cast<double>(count - 1 - i), ColumnAlign::Right});
    Table table(composer.tools(), columns);
    table.begin("");
    std::vector<Text> heads;
    for (const report::TableColumn& one : block.values.columns) heads.emplace_back(one.head);
    table.head(heads, at);
    composer.add(rule(composer.tools(), grid.margin_left, grid.margin_right, at + pt(rule_below_row)));
    at += pt(head_room);
    for (const auto& row : block.values.rows) {
        table.row(row, at);
        at += pt(value_pitch);
    }
    composer.add(table.take());
    composer.margin_free() = std::max(composer.margin_free(), at - pt(value_pitch / 2));
    return margin_notes(composer, "", block.values_notes, at);
}

/// What the grey line and the steps are, below the key of the approaches.
Paper place_correction_key(Composer& composer, const report::Compensation& block, Paper at) {
    const Tools& tools = composer.tools();
    const Paper left = composer.grid().margin_left;
    constexpr double swatch = 22, words_at = 28, raise = 2.7, step = 3, key_row = 14;
    const auto entry = [&](std::vector<Item> drawn, const std::string& words) {
        composer.add(artifact(std::move(drawn)));
        composer.add(text_line(tools, words, {}, {left + pt(words_at), at}, Align::Left, frame::Role::Paragraph));
        at += pt(key_row);
    };
    const Paper middle = at - pt(raise), half = left + pt(swatch / 2), right = left + pt(swatch);
    const std::vector<Point> steps{
        {left, middle + pt(step)}, {half, middle + pt(step)}, {half, middle - pt(step)}, {right, middle - pt(step)}};
    entry({plot::polyline(tools, PenRole::Trace, steps)}, "correction, sign turned");
    if (!block.later.empty()) {
        frame::Path grey = plot::line(tools, PenRole::Record, {left, at - pt(raise)}, {right, at - pt(raise)});
        grey.stroke->colour = tools.layout.colour(ColourRole::Grey);
        entry({std::move(grey)}, block.later_words);
    }
    composer.margin_free() = std::max(composer.margin_free(), at - pt(key_row / 2));
    return at;
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
    constexpr double between = 11;
    for (std::size_t column = 0; column < points.columns.size(); ++column) {
        Paper width = plot::width_of(composer.tools(), points.columns[column].head, {});
        for (const auto& row : points.rows) width = std::max(width, plot::width_of(composer.tools(), row[column], {}));
        sets.widths.push_back(width + (column == 0 ? Paper{} : pt(between)));
    }
    // The margin beside them is for what to mind before the table is loaded.
    const Paper room = composer.grid().wide_right - composer.grid().left;
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

/// Heading, points and notes, one below the other.
Paper points_height(const Composer& composer, const report::Compensation& block) {
    const auto& grid = composer.grid();
    const PointSets sets = point_sets(composer, block.points);
    const auto rows = static_cast<double>((block.points.rows.size() + sets.across - 1) / sets.across);
    Paper height = pt(points_heading_room + head_room + row_below_rule) + composer.tools().layout.size(SizeRole::TightRowPitch) * rows;
    for (const Text& note : block.points_notes)
        height += paragraph_height(composer.tools(), note, {}, grid.wide_right - grid.left) +
                  composer.tools().layout.type(TypeRole::Small).leading;
    return height;
}

void place_predicted(Composer& composer, const report::Compensation& block) {
    const auto& grid = composer.grid();
    const Paper top = composer.on_grid(composer.y + pt(title_above));
    // Lower, where that keeps the points and their notes on the page.
    constexpr double least_height = 230;
    const Paper left_over = composer.last_baseline() - top - pt(plot::axis_room + figure_below) - points_height(composer, block);
    const Paper height = left_over >= pt(least_height) ? std::min(pt(figure_height), left_over) : pt(figure_height);
    plot::DrawnFigure drawn =
        plot::correction_figure(composer.tools(), block, {grid.left, top, grid.wide_right - grid.left, height});
    const Paper caption = margin_caption(composer, drawn.group, block.figure_number, block.caption, top + pt(beside_top));
    constexpr double key_below = 18, next_entry = 14, values_below = 8;
    Paper at = margin_key(composer, key_of(*block.predicted, 0), caption + pt(key_below)) + pt(next_entry);
    at = place_correction_key(composer, block, at);
    place_values(composer, block, at + pt(values_below));
    composer.add(std::move(drawn.group));
    composer.y = composer.on_grid(drawn.bottom + pt(figure_below));
}

void place_points(Composer& composer, const report::Compensation& block) {
    const PointSets sets = point_sets(composer, block.points);
    const Paper pitch = composer.tools().layout.size(SizeRole::TightRowPitch);
    const std::size_t total = block.points.rows.size();
    const auto rows_needed = [&](std::size_t placed) { return (total - placed + sets.across - 1) / sets.across; };
    constexpr std::size_t rows_with_heading = 6;
    if (rows_left(composer, pitch) < std::min(rows_with_heading, rows_needed(0) + 1)) turn_page(composer, block.opening.label);
    composer.add(text_line(composer.tools(), Text().strong(block.points_heading), {.type = TypeRole::Body},
                           {composer.grid().left, composer.y}, Align::Left, frame::Role::Heading2));
    margin_notes(composer, block.cautions_heading, block.cautions, composer.y);
    composer.y += pt(points_heading_room);
    for (std::size_t placed = 0; placed < total;) {
        if (placed > 0) turn_page(composer, block.opening.label);
        std::size_t rows = std::min(rows_needed(placed), std::max<std::size_t>(1, rows_left(composer, pitch)));
        if (rows > 2 && rows + 1 == rows_needed(placed)) --rows;  // no row goes on alone
        for (std::size_t set = 0; set < sets.across && placed < total; ++set) {
            const std::size_t end = std::min(total, placed + rows);
            place_set(composer, sets, set, placed, end, block.opening.anchor + "-points");
            placed = end;
        }
        composer.y += pt(head_room) + pitch * static_cast<double>(rows);
    }
    composer.y += pt(row_below_rule) - pitch + pt(rule_below_row);
    for (const Text& note : block.points_notes) {
        const auto& grid = composer.grid();
        const bool beside_cautions = composer.margin_free() > composer.y - pt(small_ascent);
        const Paper width = (beside_cautions ? grid.wide_right : grid.margin_right) - grid.left;
        place_flowing(composer, {composer.tools(), note, {.colour = ColourRole::Grey}, width},
                      composer.grid().left, frame::Role::Note, [&](Group lines) { composer.add(std::move(lines)); },
                      [&] { turn_page(composer, block.opening.label); });
        composer.y += composer.tools().layout.type(TypeRole::Small).leading;
    }
    composer.y = composer.on_grid(composer.y);
}

}  // namespace

void place(Composer& composer, const report::Compensation& block) {
    place_opening(composer, block.opening);
    if (block.predicted) place_predicted(composer, block);
    for (const report::Section& section : block.sections) place_section(composer, section, block.opening.label);
    if (!block.points.rows.empty()) place_points(composer, block);
}

}  // namespace wayfolio::page
