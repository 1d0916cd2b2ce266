#include "page/composer.hpp"

#include "frame/bounds.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace wayfolio::page {
namespace {

constexpr double between_text_columns = 18;

Paper column_width(const layouts::PaperGrid& grid) { return (grid.margin_right - grid.left - pt(between_text_columns)) / 2; }

}  // namespace

void Composer::new_page() {
    drafts_.push_back({.items = {}, .margin_free = grid().first_baseline - grid().baseline_step});
    y = grid().first_baseline;
    place_margin_rests();
}

std::size_t Composer::lines_in_margin(std::size_t lines, Paper leading, Paper top) const {
    const Paper room = last_baseline() + rounding - top;
    return room < Paper{} ? 0 : std::min(lines, static_cast<std::size_t>(std::floor(room / leading)) + 1);
}

void Composer::place_margin_rests() {
    constexpr double below = 4;
    Paper at = y;
    std::vector<MarginRest> still;
    for (MarginRest& rest : std::exchange(margin_rests_, {})) {
        const std::size_t lines = still.empty() ? lines_in_margin(rest.text.size() - rest.from, rest.text.leading(), at) : 0;
        if (lines > 0) {
            Placed placed = rest.text.part(rest.from, rest.from + lines, {rest.left, at}, frame::Role::Paragraph);
            add(std::move(placed.group));
            margin_free() = placed.last + pt(below);
            at = placed.last + rest.text.leading() + pt(below);
            rest.from += lines;
        }
        if (rest.from < rest.text.size()) still.push_back(std::move(rest));
    }
    margin_rests_ = std::move(still);
}

Paper Composer::last_ink(const Draft& page) const {
    const auto covered = frame::bounds(page.items);
    return covered ? covered->bottom() : grid().first_baseline;
}

double Composer::empty_share(const Draft& page) const {
    return (grid().last_baseline - last_ink(page)) / (grid().last_baseline - grid().first_baseline);
}

void Composer::begin_endless_column() {
    constexpr double endless = 1e6;
    columns_ = TextColumns{y, pt(endless), y};
}

bool Composer::next_column() {
    if (!columns_ || columns_->in_second) return false;
    columns_->deepest = std::max(columns_->deepest, y);
    columns_->in_second = true;
    y = columns_->top;
    return true;
}

void Composer::begin_columns(const ColumnPages& planned) {
    column_pages_ = planned;
    columns_ = TextColumns{y, planned.pages == 1 ? std::min(planned.last_bottom, grid().last_baseline) : grid().last_baseline, y};
}

void Composer::restart_columns() {
    if (columns_) begin_columns({column_pages_.pages - 1, column_pages_.last_bottom});
}

Composer::ColumnExtent Composer::column_extent() const {
    const Paper here = y - columns_->top;
    return {columns_->top, columns_->in_second ? columns_->deepest - columns_->top + here : here, columns_->in_second};
}

void Composer::end_columns() {
    y = on_grid(std::max(y, columns_->deepest));
    columns_.reset();
    margin_free() = std::max(margin_free(), y - grid().baseline_step);
}

Paper Composer::text_left() const {
    return columns_ && columns_->in_second ? grid().left + column_width(grid()) + pt(between_text_columns) : grid().left;
}

Paper Composer::text_right() const { return columns_ ? text_left() + column_width(grid()) : grid().wide_right; }

int Composer::page_of(const std::string& anchor) {
    asked_for_pages = true;
    const auto found = known_.find(anchor);
    return found == known_.end() ? 0 : found->second;
}

Paper Composer::on_grid(Paper at) const {
    constexpr double slack = 1e-6;
    const double steps = std::ceil((at - grid().first_baseline) / grid().baseline_step - slack);
    return grid().first_baseline + grid().baseline_step * steps;
}

FlowingText::FlowingText(const Tools& tools, const Text& words, const Look& look, Paper width)
    : leading_(plot::text_style(tools, look).leading) {
    if (!words.empty()) lines_ = tools.shaper.paragraph(plot::pieces(tools, words, look), plot::text_style(tools, look), width);
}

Placed FlowingText::part(std::size_t first, std::size_t end, Point top, frame::Role role) const {
    Placed placed{.group = plot::grouped(role, {}), .last = top.y - leading_};
    for (std::size_t i = first; i < std::min(end, lines_.size()); ++i) {
        placed.last += leading_;
        ++placed.lines;
        for (auto& run : text::placed(text::Line(lines_[i]), {top.x, placed.last})) placed.group.items.emplace_back(std::move(run));
    }
    return placed;
}

Placed paragraph(const Tools& tools, const Text& words, const Look& look, Point top, Paper width, frame::Role role) {
    const FlowingText text(tools, words, look, width);
    return text.part(0, text.size(), top, role);
}

Paper paragraph_height(const Tools& tools, const Text& words, const Look& look, Paper width) {
    return paragraph(tools, words, look, {}, width).last;
}

Group text_line(const Tools& tools, const Text& words, const Look& look, Point at, Align align, frame::Role role) {
    Group group;
    group.role = role;
    plot::put(group.items, tools, words, look, at, align);
    return group;
}

Group artifact(std::vector<Item> items) { return plot::grouped(frame::Role::Artifact, std::move(items)); }

}  // namespace wayfolio::page
