#include "plan/sheet_page.hpp"

#include "plot/shapes.hpp"

#include <fmt/format.h>

namespace wayfolio::plan {
namespace {

using plot::pt;

// Room for a hand: 7 mm a row, as ruled paper has it.
constexpr double row_height = 20, first_column = 78, head_height = 16, above_gap = 8, of_row_below_baseline = 0.3, number_column = 14,
                 beside_column = 6;
constexpr std::size_t rows_for_fields = 4;

}  // namespace

SheetPage::SheetPage(const Paper& paper) : tools_(paper.tools) {
    const auto& grid = tools_.layout.grid();
    frame_.width = grid.width;
    frame_.height = grid.height;
    y_ = grid.first_baseline;
}

units::Paper SheetPage::right() const { return tools_.layout.grid().margin_right; }

void SheetPage::write(frame::Role role, const report::Text& words, plot::TypeRole type) {
    const plot::Look look{.type = type};
    const text::TextStyle style = plot::text_style(tools_, look);
    const units::Paper left = tools_.layout.grid().left;
    std::vector<plot::Item> items;
    for (const text::Line& line : tools_.shaper.paragraph(plot::pieces(tools_, words, look), style, right() - left)) {
        for (auto& run : text::placed(line, {left, y_})) items.emplace_back(std::move(run));
        y_ += style.leading;
    }
    frame_.items.emplace_back(plot::grouped(role, std::move(items)));
}

void SheetPage::heading(const std::string& words) {
    frame_.items.emplace_back(frame::Bookmark{1, words, {tools_.layout.grid().left, y_ - pt(above_gap)}});
    write(frame::Role::Heading1, report::Text(words), plot::TypeRole::Lead);
    y_ += pt(2);
}

void SheetPage::subheading(const std::string& words) { write(frame::Role::Heading2, report::Text().strong(words), plot::TypeRole::Body); }

void SheetPage::paragraph(const report::Text& words) { write(frame::Role::Paragraph, words, plot::TypeRole::Body); }

void SheetPage::gap() { y_ += pt(above_gap); }

void SheetPage::rule(units::Paper from, units::Paper to, units::Paper y) {
    rules_.emplace_back(plot::line(tools_, plot::PenRole::TableRule, {from, y}, {to, y}));
}

void SheetPage::field(const std::string& name) {
    constexpr double name_width = 210;
    y_ += pt(row_height) - tools_.layout.type(plot::TypeRole::Body).leading;
    const units::Paper baseline = y_;
    write(frame::Role::Paragraph, report::Text(name), plot::TypeRole::Body);
    rule(tools_.layout.grid().left + pt(name_width), right(), baseline + pt(2));
}

std::size_t SheetPage::rows_left() const {
    const double room = (tools_.layout.grid().last_baseline - y_).in(units::point)-head_height;
    const auto rows = static_cast<std::size_t>(room / row_height);
    return rows > rows_for_fields ? rows - rows_for_fields : 1;
}

units::Paper SheetPage::column_left(const SheetTable& table, std::size_t column) const {
    const units::Paper first = tools_.layout.grid().left + pt(first_column);
    return first + (right() - first) * (static_cast<double>(column) / static_cast<double>(table.heads.size()));
}

void SheetPage::head_row(const SheetTable& table, frame::Group& into) {
    const plot::Look grey{.colour = plot::ColourRole::Grey};
    y_ += pt(head_height);
    frame::Group row = plot::grouped(frame::Role::TableRow, {});
    const auto cell = [&](const std::string& words, units::Paper x) {
        frame::Group group = plot::grouped(frame::Role::HeadCell, {});
        group.scope = frame::Scope::Column;
        plot::put(group.items, tools_, report::Text(words), grey, {x, y_ - pt(4)});
        row.items.emplace_back(std::move(group));
    };
    cell(table.first_head, tools_.layout.grid().left);
    for (std::size_t column = 0; column < table.heads.size(); ++column) cell(table.heads[column], column_left(table, column) + pt(4));
    rule(tools_.layout.grid().left, right(), y_);
    into.items.emplace_back(std::move(row));
}

void SheetPage::body_row(const SheetTable& table, const SheetTable::Row& head, frame::Group& into) {
    y_ += pt(row_height);
    frame::Group row = plot::grouped(frame::Role::TableRow, {});
    frame::Group name = plot::grouped(frame::Role::HeadCell, {});
    name.scope = frame::Scope::Row;
    const units::Paper baseline = y_ - pt(row_height * of_row_below_baseline), left = tools_.layout.grid().left;
    const plot::Look number{.colour = plot::ColourRole::Grey}, words{.type = plot::TypeRole::Body};
    plot::put(name.items, tools_, report::Text(head.number), number, {left + pt(number_column), baseline}, plot::Align::Right);
    plot::put(name.items, tools_, report::Text(head.words), words, {left + pt(first_column - beside_column), baseline}, plot::Align::Right);
    row.items.emplace_back(std::move(name));
    for (std::size_t column = 0; column < table.heads.size(); ++column) row.items.emplace_back(plot::grouped(frame::Role::DataCell, {}));
    rule(tools_.layout.grid().left, right(), y_);
    into.items.emplace_back(std::move(row));
}

void SheetPage::table(const SheetTable& table) {
    const units::Paper top = y_;
    frame::Group whole = plot::grouped(frame::Role::Table, {}), head = plot::grouped(frame::Role::TableHead, {}),
                 body = plot::grouped(frame::Role::TableBody, {});
    head_row(table, head);
    for (const SheetTable::Row& row : table.rows) body_row(table, row, body);
    for (const SheetTable::Row& field : table.fields) body_row(table, field, body);
    for (std::size_t column = 0; column < table.heads.size(); ++column) {
        const units::Paper x = column_left(table, column);
        rules_.emplace_back(plot::line(tools_, plot::PenRole::TableRule, {x, top + pt(4)}, {x, y_}));
    }
    whole.items.emplace_back(std::move(head));
    whole.items.emplace_back(std::move(body));
    frame_.items.emplace_back(std::move(whole));
}

frame::Frame SheetPage::take(std::size_t page, std::size_t pages, const std::string& title) {
    const auto& grid = tools_.layout.grid();
    const plot::Look grey{.colour = plot::ColourRole::Grey};
    plot::put(rules_, tools_, report::Text(title), grey, {grid.left, grid.foot_baseline});
    plot::put(rules_, tools_, report::Text(fmt::format("Page {} of {}", page, pages)), grey, {right(), grid.foot_baseline},
              plot::Align::Right);
    frame_.items.emplace_back(plot::grouped(frame::Role::Artifact, std::move(rules_)));
    frame_.label = std::to_string(page);
    return std::move(frame_);
}

}  // namespace wayfolio::plan
