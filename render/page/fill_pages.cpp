#include "page/fill_pages.hpp"

#include "frame/bounds.hpp"
#include "page/blocks/blocks.hpp"
#include "page/blocks/side_by_side.hpp"
#include "page/opening.hpp"

#include <algorithm>
#include <atomic>
#include <future>
#include <numeric>
#include <span>
#include <stdexcept>

namespace wayfolio::page {
namespace {

using Blocks = std::span<const report::Block>;

/// A block that names the pages of others, and where it stands.
struct Asking {
    const report::Block* block;
    std::size_t first_page, pages;
};

struct Filled {
    std::vector<Draft> drafts;
    PageNumbers anchors;
    std::vector<Asking> asking;
    std::exception_ptr failed;
};

/// Heights from its first baseline, of a block that stands alone on a page.
struct Heights {
    Paper all;     ///< to its last ink; of what takes several pages, more than any page
    Paper margin;  ///< to the last line beside it
};

template <class Block>
Heights heights_alone(const Composer& composer, const Block& block) {
    const PageNumbers none;
    Composer trial(composer.tools(), none);
    trial.new_page();
    // A line lower than a page's first: what begins a page may grow.
    const Paper top = trial.y += composer.grid().baseline_step;
    place(trial, block);
    if (trial.page_number() > 1 || trial.has_margin_rests()) return {composer.grid().height, composer.grid().height};
    const Paper margin = trial.margin_free() - top;
    const auto covered = frame::bounds(trial.take().front().items);
    return {covered ? covered->bottom() - top : Paper{}, margin};
}

/// How much of a page a block needs below another one to begin there: a figure with what stands beside it, or a few rows.
struct Least {
    const Composer& composer;
    static constexpr Paper few_targets = pt(108);  // with the heads above them
    static constexpr Paper titled_targets = pt(84);  // the same under a title
    static constexpr Paper few_contributors = pt(160), few_lines = pt(76), few_points = pt(120);

    [[nodiscard]] Paper opened(const report::Opening& opening, Paper begun) const { return opening_height(composer, opening) + begun; }
    Paper operator()(const report::Readings& block) const {
        return stands_side_by_side(composer, block) ? titled_targets : opened(block.opening, few_targets);
    }
    Paper operator()(const report::Uncertainty& block) const { return opened(block.opening, few_contributors); }
    Paper operator()(const report::Sections& block) const { return opened(block.opening, few_lines); }
    Paper operator()(const report::Panels& block) const {
        report::Panels head = block;
        head.panels.resize(std::min<std::size_t>(1, head.panels.size()));
        head.sections.clear();
        const auto [all, margin] = heights_alone(composer, head);
        const Paper given = composer.tools().layout.size(SizeRole::PanelHeight) * (1 - least_panel_share);
        return std::max(all - given, margin);
    }
    Paper operator()(const report::Compensation& block) const {
        if (!block.predicted) return opened(block.opening, few_points);
        report::Compensation head = block;
        head.sections.clear();
        head.points.rows.clear();
        return heights_alone(composer, head).all;
    }
    template <class WithSections>
        requires requires(WithSections block) { block.sections; }
    Paper operator()(const WithSections& block) const {
        WithSections head = block;
        head.sections.clear();
        return heights_alone(composer, head).all;
    }
    template <class Composed>
    Paper operator()(const Composed&) const { return composer.grid().height; }
};

/// Whether it may begin below another block. A first page, and what fills a page, stand alone.
bool may_begin_below(const report::Block& block) {
    return !std::holds_alternative<report::Answer>(block) && !std::holds_alternative<report::PositioningOpening>(block) &&
           !std::holds_alternative<report::PolarOpening>(block) && !std::holds_alternative<report::States>(block);
}

/// Whether others may begin below it.
bool shares_its_end(const report::Block& block) {
    return !std::holds_alternative<report::Answer>(block) && !std::holds_alternative<report::PositioningOpening>(block) &&
           !std::holds_alternative<report::States>(block);
}

/// The blocks in parts that begin a page whatever stands before them.
std::vector<Blocks> independent_parts(Blocks blocks) {
    std::vector<Blocks> parts;
    for (std::size_t first = 0, i = 0; i < blocks.size(); ++i) {
        const bool last = i + 1 == blocks.size();
        if (!last && shares_its_end(blocks[i]) && may_begin_below(blocks[i + 1])) continue;
        parts.push_back(blocks.subspan(first, i + 1 - first));
        first = i + 1;
    }
    return parts;
}

const std::string& label_of(const report::Block& block) {
    return std::visit([](const auto& one) -> const std::string& { return one.opening.label; }, block);
}

/// Whether a block begins below what stands on the page.
bool begins_here(const Composer& composer, const report::Block& block) {
    const Paper gap = composer.tools().layout.size(SizeRole::BlockGap);
    return composer.may_share_page && may_begin_below(block) && composer.fits(gap + std::visit(Least{composer}, block));
}

void place_block(Composer& composer, const report::Block& block) {
    if (begins_here(composer, block)) composer.y = composer.on_grid(composer.y + composer.tools().layout.size(SizeRole::BlockGap));
    else composer.new_page();
    std::visit([&](const auto& one) { place(composer, one); }, block);
    while (composer.has_margin_rests()) turn_page(composer, label_of(block));
}

/// The place of what comes next: the first block, or text from further behind that fills a page which would end early.
std::size_t next_place(const Composer& composer, const std::vector<const report::Block*>& waiting) {
    if (composer.page_number() == 0 || composer.full_enough() || !composer.may_share_page || begins_here(composer, *waiting.front())) return 0;
    const Paper gap = composer.tools().layout.size(SizeRole::BlockGap);
    for (std::size_t i = 1; i < waiting.size(); ++i) {
        const auto* text = std::get_if<report::Sections>(waiting[i]);
        if (text && !text->ends_report && composer.fits(gap + heights_alone(composer, *text).all)) return i;
    }
    return 0;
}

Filled fill_part(Blocks blocks, const Tools& tools, const PageNumbers& known) {
    Composer composer(tools, known);
    std::vector<Asking> asking;
    std::vector<const report::Block*> waiting;
    for (const report::Block& block : blocks) waiting.push_back(&block);
    while (!waiting.empty()) {
        const auto next = waiting.begin() + static_cast<std::ptrdiff_t>(next_place(composer, waiting));
        const report::Block& block = **next;
        waiting.erase(next);
        const auto first_page = static_cast<std::size_t>(composer.page_number());
        composer.asked_for_pages = false;
        place_block(composer, block);
        if (composer.asked_for_pages) asking.push_back({&block, first_page, static_cast<std::size_t>(composer.page_number()) - first_page});
        composer.may_share_page = shares_its_end(block);
    }
    return {composer.take(), composer.anchors(), std::move(asking), nullptr};
}

void append(Filled& whole, Filled part) {
    const std::size_t before = whole.drafts.size();
    std::ranges::move(part.drafts, std::back_inserter(whole.drafts));
    for (const auto& [anchor, page] : part.anchors) whole.anchors[anchor] = static_cast<int>(before) + page;
    for (const Asking& asking : part.asking) whole.asking.push_back({asking.block, before + asking.first_page, asking.pages});
}

/// The places of the parts, longest first, so that two threads end together.
std::vector<std::size_t> longest_first(const std::vector<Blocks>& parts) {
    std::vector<std::size_t> order(parts.size());
    std::iota(order.begin(), order.end(), 0);
    std::ranges::stable_sort(order, std::greater<>(), [&](std::size_t i) { return parts[i].size(); });
    return order;
}

/// Two threads take one part after the other: which takes which changes nothing of the result.
std::vector<Filled> fill_parts(const std::vector<Blocks>& parts, const Tools& tools, const PageNumbers& known) {
    std::vector<Filled> filled(parts.size());
    const std::vector<std::size_t> order = longest_first(parts);
    std::atomic<std::size_t> next = 0;
    const auto place_next = [&](const Tools& own) {
        for (std::size_t taken = next++; taken < order.size(); taken = next++) {
            const std::size_t i = order[taken];
            try {
                filled[i] = fill_part(parts[i], own, known);
            } catch (...) {
                filled[i].failed = std::current_exception();
            }
        }
    };
    std::future<void> beside;
    if (parts.size() > 1) beside = std::async(std::launch::async, [&] { place_next({tools.layout, tools.shaper.beside()}); });
    place_next(tools);
    if (beside.valid()) beside.get();
    return filled;
}

Filled fill(const report::Model& model, const Tools& tools, const PageNumbers& known) {
    Filled whole;
    for (Filled& part : fill_parts(independent_parts(model.blocks), tools, known)) {
        if (part.failed) std::rethrow_exception(part.failed);
        append(whole, std::move(part));
    }
    return whole;
}

/// Page numbers are known only when all is placed: the blocks that name one are placed again, on the same pages.
/// @return whether they kept to them: a number in a sentence may turn a line, and a line a page
bool name_pages(Filled& filled, const Tools& tools) {
    for (const Asking& asking : filled.asking) {
        Composer again(tools, filled.anchors);
        place_block(again, *asking.block);
        std::vector<Draft> drafts = again.take();
        if (shares_its_end(*asking.block)) throw std::logic_error("a block that names pages shares a page");
        if (drafts.size() != asking.pages) return false;
        std::ranges::move(drafts, filled.drafts.begin() + static_cast<std::ptrdiff_t>(asking.first_page));
    }
    return true;
}

}  // namespace

std::vector<Draft> fill_pages(const report::Model& model, const Tools& tools) {
    PageNumbers known;
    constexpr int most_rounds = 4;
    for (int round = 0; round < most_rounds; ++round) {
        Filled whole = fill(model, tools, known);
        if (name_pages(whole, tools)) return std::move(whole.drafts);
        known = std::move(whole.anchors);
    }
    throw std::logic_error("the page numbers of a report change the pages that they name");
}

}  // namespace wayfolio::page
