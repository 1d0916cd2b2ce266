#include "page/blocks/sections/section_parts.hpp"

#include "page/blocks/sections/part_flow.hpp"
#include "page/spacing.hpp"

#include <algorithm>
#include <utility>

namespace wayfolio::page {
namespace {

constexpr double bullet_room = 10, bullet_gap = 2, part_gap = 2, after_fact = 2, table_above = 8, heading_above_reference = 13;

void place_part(const PartFlow& flow, const report::Paragraph& part) {
    flow.place(part.text, flow.words, flow.text_width(), frame::Role::Paragraph);
    flow.composer.y += flow.leading();
}

Paper bullets_width(const PartFlow& flow) { return flow.text_width() - pt(bullet_room); }

/// Items that are looked up stand closer.
Paper below_bullet(const PartFlow& flow) {
    return flow.leading() + pt(flow.words.type == TypeRole::Small ? bullet_gap / 2 : bullet_gap);
}

/// What must stand on one page from an item on: the item, or the first lines of a long one, and of the last one with it, which is not left
/// alone.
Paper bullet_height(const PartFlow& flow, const report::BulletList& list, std::size_t item) {
    const auto lines = [&](std::size_t at) {
        return FlowingText(flow.composer.tools(), list.items[at], flow.words, bullets_width(flow)).size();
    };
    const auto height = [&](std::size_t of) { return flow.leading() * (static_cast<double>(std::max<std::size_t>(of, 1)) - 1); };
    if (item + 2 != list.items.size()) return height(least_lines(lines(item)));
    return height(lines(item)) + below_bullet(flow) + height(least_lines(lines(item + 1)));
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
                item.items.emplace_back(text_line(composer.tools(), "\u2013", flow.words, {flow.left(), composer.y}, Align::Left,
                                                  frame::Role::ListLabel));
            item.items.emplace_back(std::move(lines));
            list.items.emplace_back(std::move(item));
        };
        place_flowing(composer, {composer.tools(), part.items[at], flow.words, bullets_width(flow)},
                             flow.left() + pt(bullet_room), frame::Role::ListBody, add, turn_page);
        composer.y += below_bullet(flow);
    }
    close();
}

/// A row of a fact table: its name, and as many of its lines as were placed, each a paragraph.
struct FactRow {
    Group name = plot::grouped(frame::Role::HeadCell, {}), lines = plot::grouped(frame::Role::DataCell, {});
};

/// Where values stand behind their names. In a section that is looked up they follow the widest name, elsewhere all stand below each other.
Paper fact_values_at(const PartFlow& flow, const report::FactTable& part) {
    const Paper usual = pt(flow.composer.in_columns() ? 84 : 120);
    if (flow.words.type != TypeRole::Small) return usual;
    Paper widest{};
    for (const report::Fact& fact : part.facts)
        widest = std::max(widest, plot::width_of(flow.composer.tools(), Text().quiet(fact.name), section_small));
    return std::min(usual, widest + pt(words_gap));
}

void place_part(const PartFlow& flow, const report::FactTable& part) {
    const Tools& tools = flow.composer.tools();
    const Paper values_at = fact_values_at(flow, part);
    const Paper width = flow.full_width() - values_at, name_width = values_at - pt(words_gap);
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
            place_flowing(flow.composer, {tools, line, section_small, width}, flow.left() + values_at, frame::Role::Paragraph,
                          add, turn_page);
            flow.composer.y = std::max(flow.composer.y, name_end) + flow.small_leading();
        }
        end_row();
        flow.composer.y += pt(after_fact);
    }
    close();
    flow.composer.y += pt(part_gap);
}

void place_part(const PartFlow& flow, const report::PlainTable& part) { place_table(flow, part); }

/// What must stand with the heading above a part: the first rows of a table, or the first item of a list, or both of two.
Paper least_height(const PartFlow& flow, const report::SectionPart& part) {
    if (const auto* table = std::get_if<report::PlainTable>(&part)) return least_table_height(flow, *table);
    const auto* list = std::get_if<report::BulletList>(&part);
    return list && !list->items.empty() ? bullet_height(flow, *list, 0) : Paper{};
}

/// A heading keeps at least four lines of what it heads.
Paper least_of_section(const PartFlow& flow, const report::Section& section) {
    constexpr double lines = 4;
    const Paper with_heading = pt(heading_below) + flow.leading() * (lines - 1);
    if (section.parts.empty()) return with_heading;
    if (section.heading.empty() && std::holds_alternative<report::PlainTable>(section.parts.front()))
        return least_height(flow, section.parts.front());
    return std::max(with_heading, least_height(flow, section.parts.front()) + pt(heading_below));
}

}  // namespace

Paper least_section_height(const Composer& composer, const report::Section& section) {
    const PageNumbers none;
    Composer trial(composer.tools(), none);
    trial.new_page();
    const bool reference = section.set_as == report::SetAs::Reference;
    return least_of_section({trial, section.heading, reference ? section_small : section_body}, section);
}

void place_section(Composer& composer, const report::Section& section, const std::string& label) {
    PartFlow flow{composer, label};
    if (section.set_as == report::SetAs::Reference) flow.words = section_small;
    flow.need(least_of_section(flow, section));
    if (!section.anchor.empty()) composer.set_anchor(section.anchor);
    if (!section.heading.empty()) {
        flow.place(Text().strong(section.heading), section_body, flow.full_width(), frame::Role::Heading2);
        composer.y += pt(section.set_as == report::SetAs::Reference ? heading_above_reference : heading_below);
    }
    for (const report::SectionPart& part : section.parts) {
        const bool table = std::holds_alternative<report::PlainTable>(part);
        if (table && &part != &section.parts.front()) composer.y += pt(table_above);
        std::visit([&](const auto& one) { place_part(flow, one); }, part);
        // What is said under a table is a note to it.
        if (table) flow.words = section_small;
    }
    composer.y += pt(section_below);
    if (section.set_as == report::SetAs::Text) composer.y = composer.on_grid(composer.y);
}

}  // namespace wayfolio::page
