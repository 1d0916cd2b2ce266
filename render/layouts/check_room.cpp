#include "layouts/layout_draft.hpp"

#include <fmt/format.h>

namespace wayfolio::layouts {
namespace {

using input::ObjectReader;
using input::Value;
using units::point;

/// What a page needs, in points: columns of tables and of budgets stand at fixed places in the wide column, names and values in the margin.
constexpr double least_wide = 320, least_margin = 110, least_lines = 30, opening = 190, page_head = 100;

/// One thing that must hold on every paper of a layout.
struct Need {
    std::string what;
    double found, least;
    std::string_view key = "papers";  ///< what would have to change
};

double in_points(Paper length) { return length.in(point); }

std::vector<Need> needs_of(const PaperGrid& grid, const LayoutDraft& draft) {
    const auto size = [&](SizeRole role) { return in_points(draft.sizes[role].value_or(Paper{})); };
    const double height = in_points(grid.last_baseline - grid.first_baseline);
    const double strips = 2 * (size(SizeRole::StripHeight) + size(SizeRole::StripGap));
    const bool first_line = !draft.layout.house.first_line.empty();  // above the head
    const double least_head = 8 + (first_line ? in_points(draft.types[TypeRole::Small].value_or(TypeSize{}).leading) : 0);
    return {{"the wide column, from left to wide_right", in_points(grid.wide_right - grid.left), least_wide},
            {"the margin column, from margin_left to margin_right", in_points(grid.margin_right - grid.margin_left), least_margin},
            {"the gap between wide_right and margin_left", in_points(grid.margin_left - grid.wide_right), 0},
            {"the room above the first line, from head_baseline to first_baseline", in_points(grid.first_baseline - grid.head_baseline),
             12},
            {"the head, from the paper's edge to head_baseline", in_points(grid.head_baseline), least_head},
            {"the room below the last line, from last_baseline to foot_baseline", in_points(grid.foot_baseline - grid.last_baseline), 12},
            {"the foot, from foot_baseline to the paper's edge", in_points(grid.height - grid.foot_baseline), 16},
            {"the lines of a page, from first_baseline to last_baseline", height, least_lines * in_points(grid.baseline_step)},
            {"the same, for main_plot_height with two of strip_height and strip_gap", height,
             size(SizeRole::MainPlotHeight) + strips + opening, "sizes"},
            {"the same, for panel_height and panel_gap", height, size(SizeRole::PanelHeight) + size(SizeRole::PanelGap) + opening, "sizes"},
            {"the same, for pair_height and pair_gap", height, size(SizeRole::PairHeight) + size(SizeRole::PairGap) + opening, "sizes"},
            {"the same, for four of record_height and record_gap", height,
             4 * (size(SizeRole::RecordHeight) + size(SizeRole::RecordGap)) + page_head, "sizes"}};
}

}  // namespace

void check_room(const LayoutDraft& draft, ObjectReader& reader) {
    // The nearest place in this file to what would have to change: a layout that it extends may have said the rest.
    const auto place = [&](std::string_view key, std::string_view member) -> const Value& {
        const Value* const part = reader.value().member(key);
        const Value* const written = part == nullptr ? nullptr : part->member(member);
        return written != nullptr ? *written : part != nullptr ? *part : reader.value();
    };
    for (const PaperGrid& grid : draft.layout.papers) {
        for (const Need& need : needs_of(grid, draft)) {
            constexpr double rounding = 1e-6;
            if (need.found >= need.least - rounding) continue;
            const bool of_sizes = need.key == "sizes" && reader.value().member("sizes") != nullptr;
            reader.faults().add(of_sizes ? place("sizes", "") : place("papers", grid.name),
                                fmt::format("on the paper \"{}\", {:.6g} pt: {}", grid.name, need.found, need.what),
                                fmt::format("at least {:.6g} pt", need.least));
        }
    }
    for (const auto& known : role_words<TypeRole>) {
        const auto& type = draft.types[known.role];
        if (!type || type->leading >= type->size) continue;
        reader.faults().add(place("type", known.word),
                            fmt::format("lines of \"{}\" {:.6g} pt apart, in type of {:.6g} pt", known.word, in_points(type->leading),
                                        in_points(type->size)),
                            "a leading of at least the size: lines would stand on each other");
    }
}

}  // namespace wayfolio::layouts
