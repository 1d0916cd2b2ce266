#pragma once
#include "layouts/layout.hpp"
#include "support/frame_checks.hpp"

#include <fmt/format.h>

#include <map>
#include <string>
#include <vector>

/// How pages end. Each check returns what it found, one sentence a finding.
namespace wayfolio::testing {

/// Lowest ink of a page's content: running head and foot are none of it.
inline frame::Paper last_ink(const frame::Frame& page, const layouts::PaperGrid& grid) {
    using namespace checking;
    Paper lowest{};
    const auto seen = [&](const Rect& box) {
        constexpr double above_foot = 9;
        if (box.bottom() < grid.foot_baseline - point(above_foot)) lowest = std::max(lowest, box.bottom());
    };
    walk(page.items, [&](const auto& item, const Around& around) {
        if (clip_of(around)) return;
        if (const auto [box, words] = drawn(item); box) seen(*box);
    });
    return lowest;
}

/// Pages but the last that are more than a quarter empty.
inline Findings early_ends(const std::vector<frame::Frame>& pages, const layouts::PaperGrid& grid) {
    constexpr double most_empty = 0.25;
    const frame::Paper least = grid.last_baseline - (grid.last_baseline - grid.first_baseline) * most_empty;
    Findings found;
    for (std::size_t i = 0; i + 1 < pages.size(); ++i)
        if (const frame::Paper last = last_ink(pages[i], grid); last < least)
            found.push_back(
                fmt::format("page {} ends at {:.0f} pt, above {:.0f}", pages[i].label, last.in(units::point), least.in(units::point)));
    return found;
}

/// Texts that run past the margin column's edge, or begin left of the page's text.
inline Findings texts_past_the_margins(const frame::Frame& page, const layouts::PaperGrid& grid) {
    Findings found;
    frame::walk(page.items, [&](const frame::GlyphRun& run) {
        const frame::Rect box = frame::bounds(run);
        const frame::Paper hangs = units::point(12);  // numbers of axes, and p of the answer, hang into the edge
        if (box.right() > grid.margin_right + hangs || box.left < grid.left - hangs)
            found.push_back("\"" + run.text + "\" stands past the margins " + checking::place(box));
    });
    return found;
}

namespace checking {

inline bool is_heading(Role role) { return role == Role::Heading1 || role == Role::Heading2 || role == Role::Heading3; }

/// The content of a page, in reading order: groups that are read and stand in no other, but for sections.
inline void collect_content(const std::vector<Item>& items, std::vector<const Group*>& into) {
    for (const Item& item : items) {
        const auto* group = std::get_if<Group>(&item);
        if (!group || group->role == Role::Artifact) continue;
        if (group->role == Role::Section || group->role == Role::Plain) collect_content(group->items, into);
        else into.push_back(group);
    }
}

}  // namespace checking

/// Words that say twice running that something goes on.
inline Findings continued_twice(const frame::Frame& page) {
    Findings found;
    std::string before;
    frame::walk(page.items, [&](const frame::GlyphRun& run) {
        const std::size_t first = run.text.find_first_not_of(' ');
        if (before.ends_with("continued") && first != std::string::npos && run.text.substr(first).starts_with("continued"))
            found.push_back("\"" + before + run.text + "\"");
        before = run.text;
    });
    return found;
}

/// Headings that nothing follows on their page.
inline Findings lone_headings(const frame::Frame& page) {
    using namespace checking;
    std::vector<const Group*> content;
    collect_content(page.items, content);
    Findings found;
    for (std::size_t i = 0; i < content.size(); ++i) {
        if (!is_heading(content[i]->role)) continue;
        const auto heading = bounds(Item(*content[i]));
        const bool followed = std::any_of(content.begin() + static_cast<std::ptrdiff_t>(i) + 1, content.end(), [&](const Group* next) {
            const auto box = bounds(Item(*next));
            constexpr double foot = 45;
            return !is_heading(next->role) && box && heading && box->bottom() > heading->bottom() &&
                   box->bottom() < page.height - point(foot);
        });
        if (!followed) found.push_back(fmt::format("page {}: nothing follows the heading \"{}\"", page.label, words_of(content[i]->items)));
    }
    return found;
}

/// Parts of tables, broken over pages, that have fewer than two rows.
inline Findings single_rows(const std::vector<frame::Frame>& pages) {
    using namespace checking;
    struct Part {
        std::string page;
        std::size_t rows;
    };
    std::map<std::string, std::vector<Part>> parts;
    for (const frame::Frame& page : pages)
        walk(page.items, [&](const Group& table) {
            if (table.role != Role::Table || table.continues.empty()) return;
            std::size_t rows = 0;
            for (const Item& item : table.items)
                if (const auto* body = std::get_if<Group>(&item); body && body->role == Role::TableBody) rows += body->items.size();
            std::vector<Part>& same = parts[table.continues];
            if (!same.empty() && same.back().page == page.label) same.back().rows += rows;
            else same.push_back({page.label, rows});
        });
    Findings found;
    for (const auto& [key, same] : parts)
        for (const Part& part : same)
            if (same.size() > 1 && part.rows < 2) found.push_back("page " + part.page + ": one row of the table " + key + " stands alone");
    return found;
}

}  // namespace wayfolio::testing
