#include "page/blocks/uncertainty_parts.hpp"

#include "page/flowing.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "page/table.hpp"
#include "plot/figures/figures.hpp"
#include "plot/marks/verdict_symbol.hpp"

#include <algorithm>
#include <utility>

namespace wayfolio::page {
namespace {

constexpr double part_pitch = 12, part_swatch_width = 10, part_swatch_height = 6, part_name_at = 14, part_name_gap = 8;
constexpr double result_pitch = 28.5, close_result_pitch = 24, below_table = 18;
constexpr std::size_t few_results = 5;  // more stand closer, so that names keep their line
const Look small_grey{.colour = ColourRole::Grey}, small_ink{};

/// A row broken into lines where its name or its basis is long.
struct ContributorLines {
    FlowingText name, basis;
    [[nodiscard]] std::size_t most() const { return std::max<std::size_t>({name.size(), basis.size(), 1}); }
    [[nodiscard]] Paper height() const { return pt(part_pitch) + name.leading() * (static_cast<double>(most()) - 1); }
};

class ContributorFlow {
public:
    ContributorFlow(Composer& composer, const report::ContributorTable& table, const std::string& label)
        : composer_(composer), table_(table), label_(label) {
        const auto& grid = composer.grid();
        columns_.push_back({grid.left + pt(part_name_at)});
        const auto count = static_cast<double>(table.heads.size());
        const Paper pitch = pt(table.heads.size() > few_results ? close_result_pitch : result_pitch);
        for (std::size_t i = 0; i < table.heads.size(); ++i)
            columns_.push_back({grid.wide_right - pitch * (count - 1 - static_cast<double>(i)), ColumnAlign::Right});
        columns_.push_back({grid.margin_left});
        name_room_ = columns_[1].x - pitch - grid.left - pt(part_name_at - part_name_gap);
    }

    void place() {
        std::vector<ContributorLines> rows;
        for (const report::ContributorRow& row : table_.rows) rows.push_back(lines_of(row));
        constexpr std::size_t begin_with = 3;
        Paper least = heads_height();
        for (std::size_t i = 0; i < std::min(begin_with, rows.size()); ++i) least += rows[i].height();
        if (!composer_.fits(least)) turn_page(composer_, label_);
        begin();
        for (std::size_t i = 0; i < rows.size(); ++i) {
            const bool last_two = i + 2 == rows.size(), last = i + 1 == rows.size(), high = rows[i].height() > page_room();
            const Paper height = rows[i].height() - pt(part_pitch) + (last_two ? rows[i + 1].height() + pt(rule_below_row) : Paper{});
            if (i > 0 && !high && !composer_.fits(height)) go_on();
            if (last) divide();
            // What is higher than a page is broken where it stands.
            std::size_t here = high ? lines_here(composer_, rows[i].most(), rows[i].name.leading()) : rows[i].most();
            for (std::size_t from = 0; from < rows[i].most(); from += here) {
                if (here == 0 || from > 0) {
                    go_on();
                    here = lines_on_next(composer_, rows[i].most() - from, rows[i].name.leading());
                }
                add_row(table_.rows[i], rows[i], from, from + here, last);
            }
        }
        close();
        composer_.y += pt(below_table);
    }

private:
    /// What fits on a page under "continued" and the heads.
    [[nodiscard]] Paper page_room() const {
        constexpr double continued = 36;
        return composer_.last_baseline() - composer_.grid().first_baseline - pt(continued) - heads_height();
    }

    void go_on() {
        close();
        turn_page(composer_, label_);
        begin();
    }

    /// The rule above what combines the others.
    void divide() {
        composer_.add(rule(composer_.tools(), composer_.grid().left, composer_.grid().margin_right,
                           composer_.y - pt(part_pitch - rule_below_row + 1)));
        composer_.y += pt(rule_below_row);
    }

    [[nodiscard]] ContributorLines lines_of(const report::ContributorRow& row) const {
        const auto& grid = composer_.grid();
        return {{composer_.tools(), row.name, small_ink, name_room_},
                {composer_.tools(), row.basis, row.of ? small_ink : small_grey, grid.margin_right - grid.margin_left}};
    }

    [[nodiscard]] bool two_lines() const {
        return std::ranges::any_of(table_.heads, [](const report::ColumnHead& head) { return !head.above.empty(); });
    }
    [[nodiscard]] Paper heads_height() const { return pt(head_room) + (two_lines() ? leading() : Paper{}); }
    [[nodiscard]] Paper leading() const { return composer_.tools().layout.type(TypeRole::Small).leading; }

    void begin() {
        const Tools& tools = composer_.tools();
        const auto& grid = composer_.grid();
        const Paper first = composer_.y, second = first + (two_lines() ? leading() : Paper{});
        open_.emplace(tools, columns_);
        open_->begin(table_.key);
        Group name = plot::grouped(frame::Role::HeadCell, {});
        name.scope = frame::Scope::Column;
        plot::put(name.items, tools, Text("Expanded / " + table_.units), small_grey, {grid.left, second});
        std::vector<Group> cells{std::move(name)};
        for (std::size_t i = 0; i < table_.heads.size(); ++i) {
            Group cell = open_->head_cell(table_.heads[i].below, i + 1, second);
            if (!table_.heads[i].above.empty()) {
                std::vector<Item> above;
                plot::put(above, tools, table_.heads[i].above, small_grey, {columns_[i + 1].x, first}, Align::Right);
                cell.items.insert(cell.items.begin(), above.begin(), above.end());
            }
            cells.push_back(std::move(cell));
        }
        cells.push_back(open_->head_cell(Text("Basis"), columns_.size() - 1, second));
        open_->add_head(std::move(cells));
        composer_.add(rule(tools, grid.left, grid.margin_right, second + pt(rule_below_row)));
        composer_.y = second + pt(head_room);
    }

    /// The lines of a row from `from` on that stand on one page; its numbers are on the first.
    void add_row(const report::ContributorRow& row, const ContributorLines& lines, std::size_t from, std::size_t end, bool combines) {
        const Tools& tools = composer_.tools();
        const auto& grid = composer_.grid();
        const Paper at = composer_.y;
        if (row.of && from == 0) {
            const Rect box{grid.left, at - pt(part_swatch_height), pt(part_swatch_width), pt(part_swatch_height)};
            composer_.add(artifact({plot::uncertainty_swatch(tools, *row.of, box)}));
        }
        // Where a row goes on, its name is on the page before.
        const bool named = from == 0 || from < lines.name.size();
        Group name = lines.name.part(from, end, {combines ? grid.left : columns_[0].x, at},
                                     named ? frame::Role::HeadCell : frame::Role::DataCell).group;
        if (named) name.scope = frame::Scope::Row;
        std::vector<Group> cells{std::move(name)};
        for (std::size_t i = 0; i < row.cells.size(); ++i)
            cells.push_back(open_->data_cell(from == 0 ? row.cells[i] : Text(), i + 1, at));
        cells.push_back(lines.basis.part(from, end, {grid.margin_left, at}, frame::Role::DataCell).group);
        open_->add_row(std::move(cells));
        composer_.y += pt(part_pitch) + lines.name.leading() * (static_cast<double>(end - from) - 1);
    }

    void close() {
        composer_.add(open_->take());
        composer_.y -= pt(part_pitch);
    }

    Composer& composer_;
    const report::ContributorTable& table_;
    const std::string& label_;
    std::vector<Column> columns_;
    Paper name_room_;
    std::optional<Table> open_;
};

constexpr double word_at = 19, when_at = 112, count_at = 236, example_at = 250;

/// An outcome with its sentence broken into lines.
struct OutcomeLines {
    FlowingText when, example;
    [[nodiscard]] Paper height() const {
        return pt(part_pitch) + when.leading() * (static_cast<double>(std::max<std::size_t>({when.size(), example.size(), 1})) - 1);
    }
};

}  // namespace

void place_small_notes(Composer& composer, const std::vector<Text>& notes, const std::string& label) {
    const auto& grid = composer.grid();
    for (const Text& note : notes) {
        place_flowing(composer, {composer.tools(), note, small_grey, grid.margin_right - grid.left}, grid.left, frame::Role::Note,
                      [&](Group lines) { composer.add(std::move(lines)); }, [&] { turn_page(composer, label); });
        composer.y += composer.tools().layout.type(TypeRole::Small).leading;
    }
}

void place_contributors(Composer& composer, const report::ContributorTable& table, const std::string& label) {
    ContributorFlow(composer, table, label).place();
}

void place_outcomes(Composer& composer, const std::vector<report::OutcomeRow>& rows, const std::string& label) {
    if (rows.empty()) return;
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    const Paper example_left = grid.left + pt(example_at);
    std::vector<OutcomeLines> lines;
    Paper height = pt(head_room);
    for (const report::OutcomeRow& row : rows) {
        lines.push_back({{tools, row.when, small_grey, pt(count_at - when_at - part_pitch)},
                         {tools, row.example, small_ink, grid.margin_right - example_left}});
        height += lines.back().height();
    }
    if (!composer.fits(height - pt(part_pitch))) turn_page(composer, label);
    const Column when{grid.left + pt(when_at)}, count{grid.left + pt(count_at), ColumnAlign::Right}, example{example_left};
    Table table(tools, {{grid.left + pt(word_at)}, when, count, example});
    table.begin("");
    Table heads(tools, {{grid.left}, when, count, example});
    std::vector<Group> cells;
    const std::vector<Text> words{Text("Outcome"), Text("when"), Text("here"), Text("sentence, the same on every page")};
    for (std::size_t i = 0; i < words.size(); ++i) cells.push_back(heads.head_cell(words[i], i, composer.y));
    table.add_head(std::move(cells));
    composer.add(rule(tools, grid.left, grid.margin_right, composer.y + pt(rule_below_row)));
    composer.y += pt(head_room);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const Paper at = composer.y;
        composer.add(artifact({plot::marks::verdict_symbol(tools, rows[i].standing, grid.left, at)}));
        std::vector<Group> row{table.row_head(rows[i].word, 0, at)};
        row.push_back(lines[i].when.part(0, lines[i].when.size(), {grid.left + pt(when_at), at}, frame::Role::DataCell).group);
        row.push_back(table.data_cell(rows[i].count, 2, at));
        row.push_back(lines[i].example.part(0, lines[i].example.size(), {example_left, at}, frame::Role::DataCell).group);
        table.add_row(std::move(row));
        composer.y += lines[i].height();
    }
    composer.add(table.take());
    composer.add(rule(tools, grid.left, grid.margin_right, composer.y - pt(part_pitch - rule_below_row)));
    composer.y += pt(below_table);
}

}  // namespace wayfolio::page
