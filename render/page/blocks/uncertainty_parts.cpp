#include "page/blocks/uncertainty_parts.hpp"

#include "page/flowing.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "page/table.hpp"
#include "plot/figures/figures.hpp"
#include "plot/marks/verdict_symbol.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace wayfolio::page {
namespace {

constexpr double part_pitch = 12, part_swatch_width = 10, part_swatch_height = 6, part_name_at = 14, part_name_gap = 8;
constexpr double result_air = 4.5, basis_gap = 12, below_table = 18;
constexpr double least_for_names = 0.25, most_for_names = 0.6;  // of what the numbers leave
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
        const Paper pitch = result_pitch();
        const Paper numbers = pitch * static_cast<double>(table.heads.size());
        share_room(grid.margin_right - columns_.front().x - numbers - pt(part_name_gap + basis_gap));
        Paper at = columns_.front().x + name_room_ + pt(part_name_gap);
        for (std::size_t i = 0; i < table.heads.size(); ++i) columns_.push_back({at += pitch, ColumnAlign::Right});
        basis_left_ = at + pt(basis_gap);
        columns_.push_back({basis_left_});
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
    /// Of the results' columns: their widest head or number, with air.
    [[nodiscard]] Paper result_pitch() const {
        const Tools& tools = composer_.tools();
        Paper widest{};
        for (const report::ColumnHead& head : table_.heads)
            for (const Text* words : {&head.above, &head.below}) widest = std::max(widest, plot::width_of(tools, *words, small_grey));
        for (const report::ContributorRow& row : table_.rows)
            for (const Text& cell : row.cells) widest = std::max(widest, plot::width_of(tools, cell, small_ink));
        return widest + pt(result_air);
    }

    /// Room for names and for what stands behind the numbers, so that the rows take the fewest lines; of such, the most for names.
    void share_room(Paper both) {
        constexpr double past_end = 1;
        std::vector<std::pair<Paper, Paper>> widths;  // of a name and a basis, on one line each
        for (const report::ContributorRow& row : table_.rows)
            widths.emplace_back(plot::width_of(composer_.tools(), row.name, small_ink) + pt(past_end),
                                plot::width_of(composer_.tools(), row.basis, small_ink) + pt(past_end));
        const auto lines_in = [&](Paper names) {
            double lines = 0;
            for (const auto& [name, basis] : widths) lines += std::ceil(std::max(name / names, basis / (both - names)));
            return lines;
        };
        name_room_ = both * least_for_names;
        const auto propose = [&](Paper room) {
            room = std::clamp(room, both * least_for_names, both * most_for_names);
            const double now = lines_in(name_room_), then = lines_in(room);
            if (then < now || (then == now && room > name_room_ && room <= widest_name(widths))) name_room_ = room;
        };
        for (const auto& [name, basis] : widths) propose(name), propose(both - basis);
        basis_room_ = both - name_room_;
    }
    static Paper widest_name(const std::vector<std::pair<Paper, Paper>>& widths) { return std::ranges::max(widths).first; }

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
        return {{composer_.tools(), row.name, small_ink, name_room_},
                {composer_.tools(), row.basis, row.of ? small_ink : small_grey, basis_room_}};
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
        cells.push_back(open_->head_cell(Text(table_.basis_head), columns_.size() - 1, second));
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
        cells.push_back(lines.basis.part(from, end, {basis_left_, at}, frame::Role::DataCell).group);
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
    Paper name_room_, basis_room_, basis_left_;
    std::optional<Table> open_;
};

constexpr double word_at = 19, when_at = 106, count_at = 242, example_at = 252;

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
