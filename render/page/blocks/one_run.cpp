#include "page/blocks/one_run.hpp"

#include "page/blocks/readings_end.hpp"
#include "page/blocks/readings_grid.hpp"
#include "page/blocks/side_by_side.hpp"
#include "page/flowing.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "plot/figures/figures.hpp"
#include "plot/spacing.hpp"

#include <algorithm>
#include <array>
#include <optional>

namespace wayfolio::page {
namespace {

using report::Approach;

constexpr double one_run_pitch = 12, close_one_run_pitch = 11, rule_under_head = 4.5, first_row_below = 13.5, beside_marker = 5;
constexpr double table_width = 190, figure_from = 214, figure_short_of_edge = 14, least_gap = 6;
constexpr double largest_below = 10, smallest_below = 21, notes_below = 16;
constexpr std::size_t columns_count = 6, fifth_row = 5;

/// What one line of the table says: number, place, both runs, their mean, the reversal value.
using Cells = std::array<Text, columns_count>;

class OneRunFlow {
public:
    OneRunFlow(Composer& composer, const report::Readings& block)
        : composer_(composer), block_(block), one_(*block.one_run), heads_(heads()), columns_(columns()),
          table_(composer.tools(), columns_) {
        constexpr int most_ticks = 7;
        const plot::Extent extent = plot::shown_extent(one_.plot);
        ticks_ = plot::enclosing_ticks(*extent.low, *extent.high, most_ticks);
    }

    void place() {
        const bool said = place_readings_title(composer_, block_);
        begin(0);
        for (std::size_t i = 0; i < block_.targets.size(); ++i) {
            // What ends the table stands with its last two rows.
            const double needed = i + 2 >= block_.targets.size() ? pitch_ + smallest_below : largest_below;
            if (i > 1 && !composer_.fits(pt(needed))) {
                close(/*ends=*/false);
                composer_.set_goes_on({composer_.grid().margin_right, composer_.y});
                turn_page(composer_, block_.opening.label, 1);
                begin(i);
            }
            add_row(i);
        }
        close(/*ends=*/true);
        place_beneath_readings(composer_, block_, said);
        note(one_.not_evaluated);
    }

private:
    [[nodiscard]] Cells heads() const {
        return {Text("No."), Text(block_.axis + " / " + block_.position_unit), Text("run"), Text("run"), Text("mean"),
                Text().symbol("B\u1d62")};
    }

    [[nodiscard]] Cells cells(std::size_t i) const {
        const report::ReadingTarget& target = block_.targets[i];
        return {Text(target.number), Text(target.position), target.lines[0].readings.front(), target.lines[1].readings.front(),
                one_.means[i], target.reversal};
    }

    /// Over the width of the mock, further where numbers are wide.
    std::vector<Column> columns() {
        const Tools& tools = composer_.tools();
        std::array<NumberRoom, columns_count> rooms;
        std::array<Paper, columns_count> widths;
        Paper natural{};
        for (std::size_t c = 0; c < columns_count; ++c) {
            for (std::size_t i = 0; i < block_.targets.size(); ++i) rooms.at(c).add(tools, cells(i).at(c));
            rooms.at(c).add(tools, one_.largest.at(std::min<std::size_t>(c < 2 ? 0 : c - 2, one_.largest.size() - 1)));
            const bool marked = c == 2 || c == 3;
            const Paper head = plot::width_of(tools, heads_.at(c), {}) + pt(marked ? 2 * beside_marker : 0);
            widths.at(c) = std::max(rooms.at(c).before + rooms.at(c).after, head);
            natural += widths.at(c);
        }
        const Paper gap = std::max(pt(least_gap), (pt(table_width) - natural) / static_cast<double>(columns_count - 1));
        std::vector<Column> all;
        Paper at = composer_.grid().left;
        for (std::size_t c = 0; c < columns_count; ++c) {
            at += widths.at(c) + (c > 0 ? gap : Paper{});
            all.push_back({at - rooms.at(c).after, ColumnAlign::Decimal});
            ends_.at(c) = at;
        }
        return all;
    }

    void begin(std::size_t first) {
        const Tools& tools = composer_.tools();
        const auto& grid = composer_.grid();
        if (first == 0) pitch_ = fits_at(one_run_pitch) ? one_run_pitch : close_one_run_pitch;
        head_ = composer_.y;
        first_ = first;
        levels_.clear();
        table_.begin("readings-" + block_.opening.anchor);
        std::vector<Column> ends;
        for (const Paper end : ends_) ends.push_back({end, ColumnAlign::Right});
        Table heads(tools, ends);
        std::vector<Group> row;
        for (std::size_t c = 0; c < columns_count; ++c) {
            row.push_back(heads.head_cell(heads_.at(c), c, head_));
            if (c != 2 && c != 3) continue;
            const Approach approach = document::both_approaches[c - 2];
            const Paper left = ends_.at(c) - plot::width_of(tools, heads_.at(c), {}) - pt(beside_marker);
            row.back().items.insert(row.back().items.begin(),
                                    said_marker(tools, approach, {left, head_},
                                                approach == Approach::Positive ? "positive approach" : "negative approach"));
        }
        table_.add_head(std::move(row));
        top_ = head_ + pt(rule_under_head);
        composer_.add(rule(tools, grid.left, grid.margin_right, top_));
        composer_.y = head_ + pt(first_row_below);
    }

    [[nodiscard]] bool fits_at(double pitch) const {
        return composer_.fits(pt(first_row_below + pitch * static_cast<double>(block_.targets.size()) + smallest_below + notes_below));
    }

    void add_row(std::size_t i) {
        const auto& grid = composer_.grid();
        if (i % fifth_row == 0 && i > first_) {
            const Paper at = composer_.y - pt(pitch_ / 2 + plot::half_figure);
            composer_.add(artifact({plot::line(composer_.tools(), PenRole::RowRule, {grid.left, at}, {grid.margin_right, at})}));
        }
        const Cells all = cells(i);
        table_.row({all.begin(), all.end()}, composer_.y);
        levels_.push_back(composer_.y - pt(plot::half_figure));
        composer_.y += pt(pitch_);
    }

    void close(bool ends) {
        const Tools& tools = composer_.tools();
        const auto& grid = composer_.grid();
        const Paper bottom = composer_.y - pt(pitch_) + pt(rule_below_row);
        if (ends) {
            extremes("Largest", one_.largest, bottom + pt(largest_below));
            extremes("Smallest", one_.smallest, bottom + pt(smallest_below));
        }
        composer_.add(table_.take());
        composer_.add(rule(tools, grid.left, grid.margin_right, bottom));
        const Paper left = std::max(grid.left + pt(figure_from), ends_.back() + pt(figure_short_of_edge));
        plot::DrawnFigure drawn = plot::rows_figure(tools, one_,
                                                    {.left = left, .right = grid.margin_right - pt(figure_short_of_edge), .head = head_,
                                                     .top = top_, .bottom = bottom, .levels = levels_, .first = first_, .ticks = ticks_,
                                                     .ends = ends});
        composer_.add(std::move(drawn.group));
        composer_.y = ends ? std::max(bottom + pt(smallest_below), drawn.bottom) + pt(notes_below) : bottom + pt(row_below_rule);
    }

    void extremes(const std::string& name, const std::array<Text, 4>& values, Paper at) {
        Table place(composer_.tools(), columns_);
        Group head = plot::grouped(frame::Role::HeadCell, {});
        head.scope = frame::Scope::Row;
        head.column_span = 2;
        plot::put(head.items, composer_.tools(), Text().quiet(name), {}, {composer_.grid().left, at});
        std::vector<Group> row{std::move(head)};
        for (std::size_t i = 0; i < values.size(); ++i) row.push_back(place.data_cell(values.at(i), i + 2, at));
        table_.add_row(std::move(row));
    }

    void note(const Text& words) {
        const auto& grid = composer_.grid();
        place_flowing(composer_, {composer_.tools(), words, {.colour = ColourRole::Grey}, grid.margin_right - grid.left}, grid.left,
                      frame::Role::Note, [&](Group lines) { composer_.add(std::move(lines)); },
                      [&] { turn_page(composer_, block_.opening.label); });
        composer_.y += composer_.tools().layout.type(TypeRole::Small).leading;
    }

    Composer& composer_;
    const report::Readings& block_;
    const report::OneRun& one_;
    Cells heads_;
    std::array<Paper, columns_count> ends_{};
    std::vector<Column> columns_;
    Table table_;
    plot::Ticks ticks_{};
    double pitch_ = one_run_pitch;
    Paper head_{}, top_{};
    std::size_t first_ = 0;
    std::vector<Paper> levels_;
};

}  // namespace

void place_one_run(Composer& composer, const report::Readings& block) { OneRunFlow(composer, block).place(); }

}  // namespace wayfolio::page
