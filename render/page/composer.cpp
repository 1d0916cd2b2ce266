#include "page/composer.hpp"

#include <cmath>

namespace wayfolio::page {

void Composer::new_page() {
    drafts_.push_back({.items = {}, .margin_free = grid().first_baseline - grid().baseline_step});
    y = grid().first_baseline;
}

void Composer::begin_block(Paper least) {
    const Paper gap = tools_.layout.size(SizeRole::BlockGap) + grid().baseline_step;
    if (!may_share_page || !fits(gap + least)) {
        new_page();
        return;
    }
    y = on_grid(y + gap);
}

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

Placed paragraph(const Tools& tools, const Text& words, const Look& look, Point top, Paper width, frame::Role role) {
    Placed placed{.group = {}, .last = top.y - tools.layout.type(look.type).leading};
    placed.group.role = role;
    if (words.empty()) return placed;
    const text::TextStyle style = plot::text_style(tools, look);
    for (text::Line& line : tools.shaper.paragraph(plot::pieces(tools, words, look), style, width)) {
        placed.last += style.leading;
        ++placed.lines;
        for (auto& run : text::placed(std::move(line), {top.x, placed.last})) placed.group.items.emplace_back(std::move(run));
    }
    return placed;
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
