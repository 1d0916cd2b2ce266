#include "page/lay_out.hpp"

#include "page/blocks/blocks.hpp"

#include <algorithm>
#include <stdexcept>

namespace wayfolio::page {
namespace {

/// A block that names the pages of others, and where it stands.
struct Asking {
    const report::Block* block;
    std::size_t first_page, pages;
};

struct Filled {
    std::vector<Draft> drafts;
    PageNumbers anchors;
    std::vector<Asking> asking;
};

/// Tables and texts share pages; composed pages stand alone, but text may go on below the tables that end some of them.
bool flows(const report::Block& block) {
    const bool composed = std::holds_alternative<report::Answer>(block) || std::holds_alternative<report::PositioningOpening>(block) || std::holds_alternative<report::States>(block);
    const auto* panels = std::get_if<report::Panels>(&block);
    return !composed && (!panels || !panels->sections.empty());
}

void place_block(Composer& composer, const report::Block& block) {
    std::visit([&](const auto& one) { place(composer, one); }, block);
}

Filled place_all(const report::Model& model, const Tools& tools) {
    const PageNumbers none_known;
    Composer composer(tools, none_known);
    std::vector<Asking> asking;
    for (const report::Block& block : model.blocks) {
        const auto first_page = static_cast<std::size_t>(composer.page_number());
        composer.asked_for_pages = false;
        place_block(composer, block);
        if (composer.asked_for_pages) asking.push_back({&block, first_page, static_cast<std::size_t>(composer.page_number()) - first_page});
        composer.follows_flowing = flows(block);
    }
    return {composer.take(), composer.anchors(), std::move(asking)};
}

/// Page numbers are known only when all is placed: the blocks that name one are placed again, on the same pages, since a number takes
/// no more room than its absence.
void name_pages(Filled& filled, const Tools& tools) {
    for (const Asking& asking : filled.asking) {
        Composer again(tools, filled.anchors);
        place_block(again, *asking.block);
        std::vector<Draft> drafts = again.take();
        if (flows(*asking.block) || drafts.size() != asking.pages) throw std::logic_error("a block that names pages shares a page or changes their number");
        std::ranges::move(drafts, filled.drafts.begin() + static_cast<std::ptrdiff_t>(asking.first_page));
    }
}

/// Head and foot stand on the two column edges, without rules.
Group running(const report::Model& model, const Tools& tools, std::size_t page, std::size_t pages) {
    const auto& grid = tools.layout.grid();
    const Look grey{.colour = "grey"};
    std::vector<Item> items;
    plot::put(items, tools, model.running.head_left, grey, {grid.left, grid.head_baseline});
    const std::string number = "Page " + std::to_string(page) + " of " + std::to_string(pages);
    Text right(number);
    if (!model.running.draft.empty()) right.plain("   ").append(Text().strong(model.running.draft));
    plot::put(items, tools, right, grey, {grid.margin_left, grid.head_baseline});
    plot::put(items, tools, model.running.foot_left, grey, {grid.left, grid.foot_baseline});
    plot::put(items, tools, model.running.foot_right, grey, {grid.margin_left, grid.foot_baseline});
    return artifact(std::move(items));
}

/// The laboratory's logo at the top right of the first page, above the facts.
Group logo(const results::Picture& picture, const Tools& tools) {
    const auto& grid = tools.layout.grid();
    constexpr double width = 72, height = 32, above_facts = 24;
    const auto format = picture.format == results::Picture::Format::Svg ? frame::Image::Format::Svg : frame::Image::Format::Png;
    const Rect box{grid.margin_right - pt(width), grid.first_baseline - pt(above_facts + height), pt(width), pt(height)};
    return artifact({frame::Image{.box = box, .format = format, .bytes = std::make_shared<const std::string>(picture.bytes)}});
}

bool draws(const Item& item) {
    const auto* group = std::get_if<Group>(&item);
    return !group || std::ranges::any_of(group->items, draws);
}

/// Rules, markers and symbols of a page as one artifact under its texts and figures: each artifact costs an output the same as a paragraph.
void gather_artifacts(std::vector<Item>& items) {
    const auto is_artifact = [](const Item& item) {
        const auto* group = std::get_if<Group>(&item);
        return group && group->role == frame::Role::Artifact;
    };
    Group all = artifact({});
    std::vector<Item> others;
    for (Item& item : items)
        if (draws(item)) (is_artifact(item) ? all.items : others).push_back(std::move(item));
    items = std::move(others);
    // An artifact holds no artifact: its parts become plain.
    for (Item& part : all.items) std::get<Group>(part).role = frame::Role::Plain;
    if (!all.items.empty()) items.insert(items.begin(), Item(std::move(all)));
}

}  // namespace

std::vector<frame::Frame> lay_out(const report::Model& model, const Tools& tools) {
    Filled filled = place_all(model, tools);
    name_pages(filled, tools);
    const auto& grid = tools.layout.grid();
    std::vector<frame::Frame> frames;
    for (std::size_t i = 0; i < filled.drafts.size(); ++i) {
        frame::Frame page{.width = grid.width, .height = grid.height, .label = std::to_string(i + 1), .items = std::move(filled.drafts[i].items)};
        if (i == 0 && model.running.logo) page.items.emplace_back(logo(*model.running.logo, tools));
        page.items.emplace_back(running(model, tools, i + 1, filled.drafts.size()));
        gather_artifacts(page.items);
        frames.push_back(std::move(page));
    }
    return frames;
}

}  // namespace wayfolio::page
