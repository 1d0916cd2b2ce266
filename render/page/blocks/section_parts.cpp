#include "page/blocks/section_parts.hpp"

#include "page/flowing.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "page/table.hpp"

#include <algorithm>
#include <utility>

namespace wayfolio::page {
namespace {

constexpr double row_gap = 5, bullet_room = 10, bullet_gap = 2, part_gap = 10, head_height = 17;
constexpr double table_rule_below = 5, after_fact = 2, after_table = 6;  // tables of a section are set closer than others
/// Rows of a table that stand together on each of its pages.
constexpr std::size_t rows_together = 2;
const Look section_body{.type = TypeRole::Body}, section_small{};

/// Where a section's parts stand, and how they turn the page.
struct PartFlow {
    Composer& composer;
    const std::string& label;

    void turn() const { turn_page(composer, label); }
    /// Whether the page is turned for what is kept together. What is higher than a page is broken where it stands.
    [[nodiscard]] bool must_turn(Paper height) const { return !composer.fits(height) && fits_a_page(height); }
    [[nodiscard]] bool fits_a_page(Paper height) const {
        return height <= composer.grid().last_baseline - composer.grid().first_baseline - composer.grid().baseline_step * 2;
    }
    /// Behind the first of two columns comes the second one, which may be as short.
    void need(Paper height) const {
        for (int column = 0; column < 2 && must_turn(height); ++column) turn();
    }
    void place(const Text& words, const Look& look, Paper width, frame::Role role) const {
        place_flowing(composer, {composer.tools(), words, look, width}, left(), role, [&](Group lines) { composer.add(std::move(lines)); },
             [&] { turn(); });
    }
    [[nodiscard]] Paper left() const { return composer.text_left(); }
    [[nodiscard]] Paper text_width() const { return composer.text_right() - left(); }
    [[nodiscard]] Paper full_width() const { return composer.in_columns() ? text_width() : composer.grid().margin_right - left(); }
    [[nodiscard]] Paper fact_values_at() const { return pt(composer.in_columns() ? 84 : 120); }
    [[nodiscard]] Paper small_leading() const { return composer.tools().layout.type(TypeRole::Small).leading; }
};

void place_part(const PartFlow& flow, const report::Paragraph& part) {
    flow.place(part.text, section_body, flow.text_width(), frame::Role::Paragraph);
    flow.composer.y += flow.composer.grid().baseline_step;
}

Paper bullets_width(const PartFlow& flow) { return flow.text_width() - pt(bullet_room); }

Paper below_bullet(const PartFlow& flow) { return flow.composer.grid().baseline_step + pt(bullet_gap); }

/// What must stand on one page from an item on: the item, and the last one with it, which is not left alone.
Paper bullet_height(const PartFlow& flow, const report::BulletList& list, std::size_t item) {
    const auto height = [&](std::size_t at) {
        return paragraph_height(flow.composer.tools(), list.items[at], section_body, bullets_width(flow));
    };
    return item + 2 == list.items.size() ? height(item) + below_bullet(flow) + height(item + 1) : height(item);
}

void place_part(const PartFlow& flow, const report::BulletList& part) {
    Composer& composer = flow.composer;
    Group list = plot::grouped(frame::Role::List, {});
    const auto close = [&] {
        if (!list.items.empty()) composer.add(std::exchange(list, plot::grouped(frame::Role::List, {})));
    };
    const auto turn_page = [&] {
        close();
        flow.turn();
    };
    for (std::size_t at = 0; at < part.items.size(); ++at) {
        const Paper height = bullet_height(flow, part, at);
        if (flow.must_turn(height)) turn_page();
        bool begun = false;
        const auto add = [&](Group lines) {
            Group item = plot::grouped(frame::Role::ListItem, {});
            if (!std::exchange(begun, true))
                item.items.emplace_back(text_line(composer.tools(), "\u2013", section_body, {flow.left(), composer.y}, Align::Left,
                                                  frame::Role::ListLabel));
            item.items.emplace_back(std::move(lines));
            list.items.emplace_back(std::move(item));
        };
        place_flowing(composer, {composer.tools(), part.items[at], section_body, bullets_width(flow)},
                             flow.left() + pt(bullet_room), frame::Role::ListBody, add, turn_page);
        composer.y += below_bullet(flow);
    }
    close();
}

/// One row of wrapped cells.
struct RowCells {
    std::vector<Text> words;
    std::vector<Rect> boxes;  ///< left and width of each; top unused
    std::vector<bool> numeric;
};

/// The same, broken into lines.
struct RowLines {
    std::vector<FlowingText> cells;
    std::size_t most = 1;
};

RowLines lines_of_row(const Tools& tools, const RowCells& row, const Look& look) {
    RowLines lines;
    for (std::size_t i = 0; i < row.words.size(); ++i) {
        lines.cells.emplace_back(tools, row.words[i], look, row.boxes[i].width);
        lines.most = std::max(lines.most, lines.cells.back().size());
    }
    return lines;
}

Paper row_height(const PartFlow& flow, const RowCells& row) {
    const auto lines = static_cast<double>(lines_of_row(flow.composer.tools(), row, section_small).most);
    return flow.small_leading() * (lines - 1);
}

/// The lines of a row from `first` on that stand on one page.
Group row_group(const Tools& tools, const RowCells& row, const RowLines& lines, std::size_t first, std::size_t end, Paper baseline,
                const Look& look, frame::Role role) {
    Group group = plot::grouped(frame::Role::TableRow, {});
    for (std::size_t i = 0; i < row.words.size(); ++i) {
        // Where a row goes on, its name is on the page before.
        const bool heads = role == frame::Role::HeadCell || (i == 0 && (first == 0 || first < lines.cells[i].size()));
        Group cell = plot::grouped(heads ? frame::Role::HeadCell : frame::Role::DataCell, {});
        if (heads) cell.scope = role == frame::Role::HeadCell ? frame::Scope::Column : frame::Scope::Row;
        if (!row.numeric[i])
            cell.items = lines.cells[i].part(first, end, {row.boxes[i].left, baseline}, frame::Role::Plain).group.items;
        else if (first == 0)
            plot::put(cell.items, tools, row.words[i], look, {row.boxes[i].right(), baseline}, Align::Right);
        group.items.emplace_back(std::move(cell));
    }
    return group;
}

/// A row of a fact table: its name, and as many of its lines as were placed, each a paragraph.
struct FactRow {
    Group name = plot::grouped(frame::Role::HeadCell, {}), lines = plot::grouped(frame::Role::DataCell, {});
};

void place_part(const PartFlow& flow, const report::FactTable& part) {
    const Tools& tools = flow.composer.tools();
    const Paper width = flow.full_width() - flow.fact_values_at(), name_width = flow.fact_values_at() - pt(words_gap);
    Group rows = plot::grouped(frame::Role::TableBody, {});
    const auto close = [&] {
        if (rows.items.empty()) return;
        flow.composer.add(plot::grouped(frame::Role::Table, {std::exchange(rows, plot::grouped(frame::Role::TableBody, {}))}));
    };
    for (const report::Fact& fact : part.facts) {
        FactRow row;
        const auto end_row = [&] {
            if (row.lines.items.empty()) return;
            FactRow ended = std::exchange(row, {});
            rows.items.emplace_back(plot::grouped(frame::Role::TableRow, {std::move(ended.name), std::move(ended.lines)}));
        };
        const auto turn_page = [&] {
            end_row();
            close();
            flow.turn();
        };
        const Text name = Text().quiet(fact.name);
        const Paper name_height = paragraph_height(tools, name, section_small, name_width);
        Paper name_end{};
        const auto add = [&](Group lines) {
            // Behind a page's end the name is said again.
            if (row.lines.items.empty()) {
                row.name.items = paragraph(tools, name, section_small, {flow.left(), flow.composer.y}, name_width).group.items;
                row.name.scope = frame::Scope::Row;
                name_end = flow.composer.y + name_height;
            }
            row.lines.items.emplace_back(std::move(lines));
        };
        for (const Text& line : fact.lines) {
            if (row.lines.items.empty() && flow.must_turn(name_height)) turn_page();
            place_flowing(flow.composer, {tools, line, section_small, width}, flow.left() + flow.fact_values_at(), frame::Role::Paragraph,
                          add, turn_page);
            flow.composer.y = std::max(flow.composer.y, name_end) + flow.small_leading();
        }
        end_row();
        flow.composer.y += pt(after_fact);
    }
    close();
    flow.composer.y += pt(part_gap);
}

std::vector<Rect> boxes_of(const PartFlow& flow, const report::PlainTable& table) {
    std::vector<Rect> boxes;
    Paper at = flow.left();
    for (const report::TableColumn& column : table.columns) {
        const Paper width = flow.full_width() * column.width;
        boxes.push_back({at, {}, width - pt(words_gap), {}});
        at += width;
    }
    return boxes;
}

/// Which columns hold numbers.
std::vector<bool> numbers_of(const report::PlainTable& table) {
    std::vector<bool> numbers;
    for (const report::TableColumn& column : table.columns) numbers.push_back(column.cells == report::Cells::Numbers);
    return numbers;
}

/// From the first baseline of the first of these rows to the last of the last one.
Paper rows_height(const PartFlow& flow, const report::PlainTable& part, std::size_t first, std::size_t end) {
    const auto boxes = boxes_of(flow, part);
    const auto numbers = numbers_of(part);
    Paper height = -flow.small_leading() - pt(row_gap);
    for (std::size_t i = first; i < end; ++i)
        height += row_height(flow, {part.rows[i], boxes, numbers}) + flow.small_leading() + pt(row_gap);
    return height;
}

/// The head of a table with the rows that stand together.
Paper least_table_height(const PartFlow& flow, const report::PlainTable& part) {
    return pt(head_height) + rows_height(flow, part, 0, std::min(rows_together, part.rows.size()));
}

/// Whether a page ends above a row that would fit, so that the last one does not go on alone.
bool goes_with_last(const PartFlow& flow, const report::PlainTable& part, std::size_t row) {
    return row >= rows_together && row + rows_together == part.rows.size() &&
           flow.must_turn(rows_height(flow, part, row, part.rows.size()));
}

void place_part(const PartFlow& flow, const report::PlainTable& part) {
    const Tools& tools = flow.composer.tools();
    const auto boxes = boxes_of(flow, part);
    const auto numbers = numbers_of(part);
    Group head = plot::grouped(frame::Role::TableHead, {}), rows = plot::grouped(frame::Role::TableBody, {});
    const auto place_head = [&] {
        RowCells cells{{}, boxes, numbers};
        for (const report::TableColumn& column : part.columns) cells.words.emplace_back(column.head);
        const Look grey{.colour = ColourRole::Grey};
        const RowLines lines = lines_of_row(tools, cells, grey);
        head.items.emplace_back(row_group(tools, cells, lines, 0, lines.most, flow.composer.y, grey, frame::Role::HeadCell));
        flow.composer.add(rule(tools, flow.left(), flow.composer.grid().margin_right, flow.composer.y + pt(table_rule_below)));
        flow.composer.y += pt(head_height);
    };
    const auto close = [&] {
        Group table = plot::grouped(frame::Role::Table, {});
        table.items.emplace_back(std::exchange(head, plot::grouped(frame::Role::TableHead, {})));
        table.items.emplace_back(std::exchange(rows, plot::grouped(frame::Role::TableBody, {})));
        flow.composer.add(std::move(table));
        flow.composer.add(rule(tools, flow.left(), flow.composer.grid().margin_right,
                               flow.composer.y - flow.small_leading() - pt(row_gap) + pt(table_rule_below)));
    };
    flow.need(least_table_height(flow, part));
    if (!flow.composer.fits(pt(head_height))) flow.turn();  // above a row that is higher than a page
    place_head();
    for (std::size_t i = 0; i < part.rows.size(); ++i) {
        if (goes_with_last(flow, part, i)) {
            close();
            flow.turn();
            place_head();
        }
        const RowCells cells{part.rows[i], boxes, numbers};
        const RowLines lines = lines_of_row(tools, cells, section_small);
        std::size_t here = lines_here(flow.composer, lines.most, flow.small_leading());
        for (std::size_t from = 0; from < lines.most; from += here) {
            if (here == 0 || from > 0) {
                close();
                flow.turn();
                place_head();
                here = lines_on_next(flow.composer, lines.most - from, flow.small_leading());
            }
            rows.items.emplace_back(
                row_group(tools, cells, lines, from, from + here, flow.composer.y, section_small, frame::Role::DataCell));
            flow.composer.y += flow.small_leading() * static_cast<double>(here);
        }
        flow.composer.y += pt(row_gap);
    }
    close();
    flow.composer.y += pt(after_table);
}

/// What must stand with the heading above a part: the first rows of a table, or the first item of a list, or both of two.
Paper least_height(const PartFlow& flow, const report::SectionPart& part) {
    if (const auto* table = std::get_if<report::PlainTable>(&part)) return least_table_height(flow, *table);
    const auto* list = std::get_if<report::BulletList>(&part);
    return list && !list->items.empty() ? bullet_height(flow, *list, 0) : Paper{};
}

/// A heading keeps at least four lines of what it heads.
Paper least_of_section(const PartFlow& flow, const report::Section& section) {
    constexpr double with_heading = 60;
    if (section.parts.empty()) return pt(with_heading);
    return std::max(pt(with_heading), least_height(flow, section.parts.front()) + pt(heading_below));
}

}  // namespace

Paper least_section_height(const Composer& composer, const report::Section& section) {
    const PageNumbers none;
    Composer trial(composer.tools(), none);
    trial.new_page();
    return least_of_section({trial, section.heading}, section);
}

void place_section(Composer& composer, const report::Section& section, const std::string& label) {
    const PartFlow flow{composer, label};
    flow.need(least_of_section(flow, section));
    if (!section.anchor.empty()) composer.set_anchor(section.anchor);
    if (!section.heading.empty()) {
        flow.place(Text().strong(section.heading), section_body, flow.full_width(), frame::Role::Heading2);
        composer.y += pt(heading_below);
    }
    for (const report::SectionPart& part : section.parts) std::visit([&](const auto& one) { place_part(flow, one); }, part);
    composer.y = composer.on_grid(composer.y + pt(section_below));
}

}  // namespace wayfolio::page
