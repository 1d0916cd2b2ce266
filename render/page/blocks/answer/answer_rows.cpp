#include "page/blocks/answer/answer_parts.hpp"

#include "page/blocks/answer/row_drawing.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "page/table.hpp"
#include "plot/marks/verdict_symbol.hpp"
#include "plot/shapes.hpp"

#include <algorithm>
#include <optional>
#include <utility>

namespace wayfolio::page {
namespace {

using report::marked;
using report::QuantityRow;

constexpr double rule_below_head = 6, axis_below = 16, words_below_axis = 11, rule_below_axis = 2;
constexpr double quiet_below = 16, quiet_pitch = 12, between_quiet = 6, quiet_end = 6;
constexpr std::size_t many_rows = 10;
constexpr double tight_pitch = 20;

bool has_gauges(const report::Answer& block) {
    return std::ranges::any_of(block.rows, [](const QuantityRow& row) { return row.value_of_limit.has_value(); });
}

bool has_probabilities(const report::Answer& block) {
    return std::ranges::any_of(block.rows, [](const QuantityRow& row) { return row.probability.has_value(); });
}

/// The two places on the gauges' scale, in words for those who hear it.
Group gauge_head(const Composer& composer) {
    const Tools& tools = composer.tools();
    const Look grey{.colour = ColourRole::Grey};
    const Paper left = gauge_left(composer);
    Group scale = plot::grouped(frame::Role::Span, {});
    scale.alternative = "Share of the limit";
    plot::put(scale.items, tools, Text("0"), grey, {left, composer.y});
    plot::put(scale.items, tools, Text("limit"), grey, {plot::marks::gauge_limit(tools, left), composer.y}, Align::Centre);
    Group cell = plot::grouped(frame::Role::HeadCell, {std::move(scale)});
    cell.scope = frame::Scope::Column;
    return cell;
}

std::vector<Column> columns_of(const layouts::PaperGrid& grid) {
    return {{grid.left, ColumnAlign::Left},
            {grid.left + pt(curve_left), ColumnAlign::Left},
            {grid.left + pt(limit_left), ColumnAlign::Left},
            {grid.margin_left, ColumnAlign::Left},
            {grid.margin_right, ColumnAlign::Right}};
}

/// The rows of one page while they are placed, from a rule under the head on.
class RowsOfPage {
public:
    RowsOfPage(Composer& composer, const report::Answer& block)
        : composer_(composer), block_(block), table_(composer.tools(), columns_of(composer.grid())), scales_(composer, block.rows) {
        pitch_ = composer.tools().layout.size(SizeRole::QuantityRowPitch);
        if (block.rows.size() > many_rows) pitch_ = std::min(pitch_, pt(tight_pitch));
        scales_.fit(pitch_);
    }

    void place() {
        if (block_.rows.empty()) return;
        if (!composer_.fits(pt(rule_below_head) + pitch_)) turn_page(composer_, block_.opening.label);
        begin();
        for (std::size_t i = 0; i < block_.rows.size(); ++i) {
            const QuantityRow& row = block_.rows[i];
            const Paper height = row_height(composer_, row, pitch_);
            if (!composer_.fits(height)) {
                finish();
                turn_page(composer_, block_.opening.label);
                begin();
            } else if (axis_ && (row.lean || (row.axis && row.axis != axis_))) {
                next_axis();
            } else if (composer_.y > top_) {
                composer_.add(artifact({row_rule(composer_)}));
            }
            if (row.axis || row.lean) axis_ = row.axis;  // a row without a curve stands over any
            const CurveDrawing curve = curves_of(composer_, block_, row, scales_);
            place_row(composer_, row, {pitch_, has_gauges(block_), has_probabilities(block_), curve}, table_);
            composer_.y += height;
            limits_.back().second = composer_.y;
        }
        finish();
    }

private:
    void begin() {
        table_.begin("quantities");
        const auto& grid = composer_.grid();
        std::vector<Group> cells{table_.head_cell(Text("Quantity, parameter"), 0, composer_.y),
                                 table_.head_cell(Text("Curve of the parameter"), 1, composer_.y),
                                 table_.head_cell(marked("value ± *U*"), 2, composer_.y)};
        if (has_gauges(block_)) cells.push_back(gauge_head(composer_));
        cells.push_back(table_.head_cell(Text(has_gauges(block_) ? "Verdict, margin" : "Verdict"), 3, composer_.y));
        if (has_probabilities(block_)) cells.push_back(table_.head_cell(marked("*p*"), 4, composer_.y));
        table_.add_head(std::move(cells));
        composer_.y += pt(rule_below_head);
        composer_.add(rule(composer_.tools(), grid.left, grid.margin_right, composer_.y));
        top_ = first_of_axis_ = composer_.y;
        axis_.reset();
        limits_.emplace_back(top_, top_);
    }

    /// The rule under the rows above with their axis, and guides up through them.
    void place_axis() {
        composer_.add(rule(composer_.tools(), composer_.grid().left, composer_.grid().margin_right, composer_.y));
        if (!axis_) return;
        composer_.add(artifact({row_axis(composer_, block_.axes[*axis_], first_of_axis_)}));
    }

    /// The rows below stand over another axis, or over none.
    void next_axis() {
        place_axis();
        composer_.y += pt(axis_below + rule_below_axis);
        composer_.add(rule(composer_.tools(), composer_.grid().left, composer_.grid().margin_right, composer_.y));
        first_of_axis_ = composer_.y;
    }

    void finish() {
        if (has_gauges(block_)) {
            const Paper x = plot::marks::gauge_limit(composer_.tools(), gauge_left(composer_));
            composer_.add(artifact({plot::line(composer_.tools(), PenRole::SymbolLimit, {x, limits_.back().first + pt(row_air)},
                                               {x, limits_.back().second - pt(row_air)})}));
        }
        place_axis();
        if (has_gauges(block_))
            composer_.add(artifact({text_line(composer_.tools(), "each on its own limit", {.colour = ColourRole::Grey},
                                              {gauge_left(composer_), composer_.y + pt(words_below_axis)}, Align::Left,
                                              frame::Role::Plain)}));
        composer_.y += pt(axis_ || has_gauges(block_) ? axis_below : 0);
        composer_.add(table_.take());
    }

    Composer& composer_;
    const report::Answer& block_;
    Table table_;
    CurveScales scales_;
    Paper pitch_, top_, first_of_axis_;
    std::optional<std::size_t> axis_;
    std::vector<std::pair<Paper, Paper>> limits_;
};

}  // namespace

void place_rows(Composer& composer, const report::Answer& block) { RowsOfPage(composer, block).place(); }

Paper quiet_rows_height(const report::Answer& block) {
    if (block.quiet.empty()) return {};
    std::size_t lines = 0;
    for (const report::QuietRows& some : block.quiet) lines += some.rows.size() + 1;
    return pt(quiet_below + quiet_pitch * static_cast<double>(lines) + between_quiet * static_cast<double>(block.quiet.size()) + quiet_end);
}

void place_quiet_rows(Composer& composer, const report::Answer& block) {
    if (block.quiet.empty()) return;
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    std::vector<QuantityRow> all;
    for (const report::QuietRows& some : block.quiet) all.insert(all.end(), some.rows.begin(), some.rows.end());
    CurveScales scales(composer, all);
    scales.fit(pt(quiet_pitch));
    composer.y += pt(quiet_below - quiet_pitch);
    Table table(tools, columns_of(grid));
    for (const report::QuietRows& some : block.quiet) {
        const auto begin = [&](bool again) {
            composer.y += pt(quiet_pitch);
            Text heading = some.heading;
            if (again) heading.quiet("  continued");
            table.begin(some.heading.words());
            Group cell = plot::grouped(frame::Role::HeadCell, {});
            cell.scope = frame::Scope::Column;
            plot::put(cell.items, tools, heading, {.colour = ColourRole::Grey}, {grid.left, composer.y});
            std::vector<Group> cells;
            cells.push_back(std::move(cell));
            constexpr std::size_t columns = 5;  // every row is as wide as the others, the heading's too
            while (cells.size() < columns) cells.push_back(plot::grouped(frame::Role::DataCell, {}));
            table.add_head(std::move(cells));
        };
        constexpr double two_rows = 3 * quiet_pitch;
        if (!composer.fits(pt(two_rows))) turn_page(composer, block.opening.label);
        begin(false);
        Paper first = composer.y;
        for (const QuantityRow& row : some.rows) {
            const double lines = quiet_row_lines(composer, row);
            if (!composer.fits(pt(quiet_pitch * lines))) {
                composer.add(artifact({row_guides(composer, block, some.rows, first, composer.y)}));
                composer.add(table.take());
                turn_page(composer, block.opening.label);
                begin(true);
                first = composer.y;
            }
            composer.y += pt(quiet_pitch);
            place_quiet_row(composer, row, curves_of(composer, block, row, scales), table);
            composer.y += pt(quiet_pitch * (lines - 1));
        }
        composer.add(artifact({row_guides(composer, block, some.rows, first + pt(2), composer.y + pt(2))}));
        composer.add(table.take());
        composer.y += pt(between_quiet);
    }
    composer.y += pt(quiet_end - between_quiet);
    composer.add(rule(tools, grid.left, grid.margin_right, composer.y));
}

}  // namespace wayfolio::page
