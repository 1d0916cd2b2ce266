#include "page/blocks/section_parts.hpp"

#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "page/table.hpp"

#include <algorithm>
#include <utility>

namespace wayfolio::page {
namespace {

constexpr double row_gap = 5, fact_values_at = 120, bullet_room = 10, bullet_gap = 2, part_gap = 10, head_height = 17;
constexpr double table_rule_below = 5, after_fact = 2, after_table = 6;  // tables of a section are set closer than others
/// A table of so few rows is not broken over pages.
constexpr std::size_t unbroken_rows = 18;
const Look section_body{.type = TypeRole::Body}, section_small{};

/// Where a section's parts stand, and how they turn the page.
struct Flow {
    Composer& composer;
    const std::string& label;

    void turn_page() const {
        composer.new_page();
        place_continued(composer, label);
    }
    void need(Paper height) const {
        if (!composer.fits(height)) turn_page();
    }
    [[nodiscard]] Paper left() const { return composer.grid().left; }
    [[nodiscard]] Paper text_width() const { return composer.grid().wide_right - left(); }
    [[nodiscard]] Paper full_width() const { return composer.grid().margin_right - left(); }
    [[nodiscard]] Paper small_leading() const { return composer.tools().layout.type(TypeRole::Small).leading; }
};

void place_part(const Flow& flow, const report::Paragraph& part) {
    flow.need(paragraph_height(flow.composer.tools(), part.text, section_body, flow.text_width()));
    Placed placed = paragraph(flow.composer.tools(), part.text, section_body, {flow.left(), flow.composer.y}, flow.text_width());
    flow.composer.add(std::move(placed.group));
    flow.composer.y = placed.last + flow.composer.grid().baseline_step;
}

Paper bullets_width(const Flow& flow) { return flow.text_width() - pt(bullet_room); }

Paper below_bullet(const Flow& flow) { return flow.composer.grid().baseline_step + pt(bullet_gap); }

/// What must stand on one page from an item on: the item, and the last one with it, which is not left alone.
Paper bullet_height(const Flow& flow, const report::BulletList& list, std::size_t item) {
    const auto height = [&](std::size_t at) {
        return paragraph_height(flow.composer.tools(), list.items[at], section_body, bullets_width(flow));
    };
    return item + 2 == list.items.size() ? height(item) + below_bullet(flow) + height(item + 1) : height(item);
}

void place_part(const Flow& flow, const report::BulletList& part) {
    const Tools& tools = flow.composer.tools();
    const Paper width = bullets_width(flow);
    Group list = plot::grouped(frame::Role::List, {});
    for (std::size_t at = 0; at < part.items.size(); ++at) {
        const Text& words = part.items[at];
        if (!flow.composer.fits(bullet_height(flow, part, at))) {
            if (!list.items.empty()) flow.composer.add(std::exchange(list, plot::grouped(frame::Role::List, {})));
            flow.turn_page();
        }
        Group item = plot::grouped(frame::Role::ListItem, {});
        item.items.emplace_back(
            text_line(tools, "\u2013", section_body, {flow.left(), flow.composer.y}, Align::Left, frame::Role::ListLabel));
        Placed placed =
            paragraph(tools, words, section_body, {flow.left() + pt(bullet_room), flow.composer.y}, width, frame::Role::ListBody);
        item.items.emplace_back(std::move(placed.group));
        list.items.emplace_back(std::move(item));
        flow.composer.y = placed.last + below_bullet(flow);
    }
    if (!list.items.empty()) flow.composer.add(std::move(list));
}

/// One row of wrapped cells. Returns the last baseline.
struct RowCells {
    std::vector<Text> words;
    std::vector<Rect> boxes;  ///< left and width of each; top unused
    std::vector<bool> numeric;
};

Paper row_height(const Tools& tools, const RowCells& row) {
    Paper most{};
    for (std::size_t i = 0; i < row.words.size(); ++i)
        most = std::max(most, paragraph_height(tools, row.words[i], section_small, row.boxes[i].width));
    return most;
}

Group row_group(const Tools& tools, const RowCells& row, Paper baseline, const Look& look, frame::Role role, frame::Scope first_scope) {
    Group group = plot::grouped(frame::Role::TableRow, {});
    for (std::size_t i = 0; i < row.words.size(); ++i) {
        const bool heads = role == frame::Role::HeadCell || i == 0;
        Group cell = plot::grouped(heads ? frame::Role::HeadCell : frame::Role::DataCell, {});
        if (heads) cell.scope = role == frame::Role::HeadCell ? frame::Scope::Column : first_scope;
        if (row.numeric[i]) {
            plot::put(cell.items, tools, row.words[i], look, {row.boxes[i].right(), baseline}, Align::Right);
        } else {
            Placed placed = paragraph(tools, row.words[i], look, {row.boxes[i].left, baseline}, row.boxes[i].width, frame::Role::Plain);
            cell.items = std::move(placed.group.items);
        }
        group.items.emplace_back(std::move(cell));
    }
    return group;
}

/// A row of a fact table: its name, and as many of its lines as were placed, each a paragraph.
struct FactRow {
    Group name = plot::grouped(frame::Role::HeadCell, {}), lines = plot::grouped(frame::Role::DataCell, {});
};

void place_part(const Flow& flow, const report::FactTable& part) {
    const Tools& tools = flow.composer.tools();
    const Paper values = flow.left() + pt(fact_values_at), width = flow.full_width() - pt(fact_values_at);
    const Paper name_width = pt(fact_values_at - words_gap);
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
        const Text name = Text().quiet(fact.name);
        for (const Text& line : fact.lines) {
            Paper height = paragraph_height(tools, line, section_small, width);
            if (row.lines.items.empty()) height = std::max(height, paragraph_height(tools, name, section_small, name_width));
            if (!flow.composer.fits(height)) {
                end_row();
                close();
                flow.turn_page();
            }
            // Behind a page's end the name is said again.
            if (row.lines.items.empty()) {
                row.name.items = paragraph(tools, name, section_small, {flow.left(), flow.composer.y}, name_width).group.items;
                row.name.scope = frame::Scope::Row;
            }
            row.lines.items.emplace_back(paragraph(tools, line, section_small, {values, flow.composer.y}, width).group);
            flow.composer.y += height + flow.small_leading();
        }
        end_row();
        flow.composer.y += pt(after_fact);
    }
    close();
    flow.composer.y += pt(part_gap);
}

std::vector<Rect> boxes_of(const Flow& flow, const report::PlainTable& table) {
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

/// From the head's baseline to the last line of the last row.
Paper table_height(const Flow& flow, const report::PlainTable& part) {
    const auto boxes = boxes_of(flow, part);
    const auto numbers = numbers_of(part);
    Paper height = pt(head_height) - flow.small_leading() - pt(row_gap);
    for (const auto& words : part.rows)
        height += row_height(flow.composer.tools(), {words, boxes, numbers}) + flow.small_leading() + pt(row_gap);
    return height;
}

void place_part(const Flow& flow, const report::PlainTable& part) {
    const Tools& tools = flow.composer.tools();
    const auto boxes = boxes_of(flow, part);
    const auto numbers = numbers_of(part);
    Group head = plot::grouped(frame::Role::TableHead, {}), rows = plot::grouped(frame::Role::TableBody, {});
    const auto place_head = [&] {
        RowCells cells{{}, boxes, numbers};
        for (const report::TableColumn& column : part.columns) cells.words.emplace_back(column.head);
        head.items.emplace_back(
            row_group(tools, cells, flow.composer.y, {.colour = ColourRole::Grey}, frame::Role::HeadCell, frame::Scope::Column));
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
    place_head();
    for (const auto& words : part.rows) {
        const RowCells cells{words, boxes, numbers};
        const Paper height = row_height(tools, cells);
        if (!flow.composer.fits(height)) {
            close();
            flow.turn_page();
            place_head();
        }
        rows.items.emplace_back(row_group(tools, cells, flow.composer.y, section_small, frame::Role::DataCell, frame::Scope::Row));
        flow.composer.y += height + flow.small_leading() + pt(row_gap);
    }
    close();
    flow.composer.y += pt(after_table);
}

/// What must stand with the heading above a part: a short table, or the first item of a list, or both of two.
Paper least_height(const Flow& flow, const report::SectionPart& part) {
    if (const auto* table = std::get_if<report::PlainTable>(&part))
        return table->rows.size() <= unbroken_rows ? table_height(flow, *table) : Paper{};
    const auto* list = std::get_if<report::BulletList>(&part);
    return list && !list->items.empty() ? bullet_height(flow, *list, 0) : Paper{};
}

}  // namespace

void place_section(Composer& composer, const report::Section& section, const std::string& label) {
    const Flow flow{composer, label};
    // A heading keeps at least four lines of what it heads.
    constexpr double with_heading = 60;
    flow.need(section.parts.empty() ? pt(with_heading)
                                    : std::max(pt(with_heading), least_height(flow, section.parts.front()) + pt(heading_below)));
    if (!section.anchor.empty()) composer.set_anchor(section.anchor);
    composer.add(text_line(composer.tools(), Text().strong(section.heading), section_body, {composer.grid().left, composer.y}, Align::Left,
                           frame::Role::Heading2));
    composer.y += pt(heading_below);
    for (const report::SectionPart& part : section.parts) std::visit([&](const auto& one) { place_part(flow, one); }, part);
    composer.y = composer.on_grid(composer.y + pt(section_below));
}

}  // namespace wayfolio::page
