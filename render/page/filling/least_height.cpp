#include "page/filling/least_height.hpp"

#include "frame/bounds.hpp"
#include "page/blocks/blocks.hpp"
#include "page/blocks/sections/section_parts.hpp"
#include "page/blocks/side_by_side.hpp"
#include "page/opening.hpp"

#include <algorithm>

namespace wayfolio::page {
namespace {

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

struct Least {
    const Composer& composer;
    static constexpr Paper few_targets = pt(108);  // with the heads above them
    static constexpr Paper titled_targets = pt(62);  // two under a title
    static constexpr Paper few_contributors = pt(90), few_points = pt(120);

    [[nodiscard]] Paper opened(const report::Opening& opening, Paper begun) const { return opening_height(composer, opening) + begun; }
    Paper operator()(const report::Readings& block) const {
        return block.one_run || stands_side_by_side(composer, block) ? titled_targets : opened(block.opening, few_targets);
    }
    Paper operator()(const report::Uncertainty& block) const { return opened(block.opening, few_contributors); }
    /// A text under the lead may end a page.
    Paper operator()(const report::Sections& block) const {
        const Paper opening = text_opening_height(composer, block.opening);
        if (!block.opening.body.empty()) return opening - composer.tools().layout.size(SizeRole::BlockGap);
        return opening + (block.sections.empty() ? Paper{} : least_section_height(composer, block.sections.front()));
    }
    Paper operator()(const report::Panels& block) const {
        report::Panels head = block;
        head.panels.resize(std::min<std::size_t>(1, head.panels.size()));
        head.sections.clear();
        const auto [all, margin] = heights_alone(composer, head);
        const Paper given = composer.tools().layout.size(SizeRole::PanelHeight) * (1 - least_panel_share);
        return std::max(all - given, margin);
    }
    Paper operator()(const report::States& block) const {
        report::States head = block;
        head.pairs.resize(std::min<std::size_t>(1, head.pairs.size()));
        head.changes.clear();
        head.notes.clear();
        head.sections.clear();
        return heights_alone(composer, head).all;
    }
    Paper operator()(const report::Compensation& block) const {
        if (!block.predicted) return opened(block.opening, few_points);
        report::Compensation head = block;
        head.sections.clear();
        // A table stands under its curve where both fit on a page.
        if (const Paper both = heights_alone(composer, head).all; both < composer.grid().height) return both;
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

}  // namespace

Paper least_height(const Composer& composer, const report::Block& block) { return std::visit(Least{composer}, block); }

Paper height_alone(const Composer& composer, const report::Sections& text) { return heights_alone(composer, text).all; }

Paper height_alone(const Composer& composer, const report::Readings& readings) { return heights_alone(composer, readings).all; }

Paper height_alone(const Composer& composer, const report::Block& block) {
    return std::visit(
        [&](const auto& one) {
            const auto [all, margin] = heights_alone(composer, one);
            return std::max(all, margin);
        },
        block);
}

}  // namespace wayfolio::page
