#pragma once
#include "frame/bounds.hpp"
#include "frame/contrast.hpp"
#include "frame/overloaded.hpp"
#include "frame/walk.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <vector>

/// Checks that hold for every page of every sample. Each returns what it found, one sentence a finding; nothing found is an empty
/// list.
namespace wayfolio::testing {

using Findings = std::vector<std::string>;

namespace checking {

using namespace frame;
using units::point;

inline constexpr Colour white{255, 255, 255};
/// Kerning and side bearings reach a little over: less than this is no overlap.
inline constexpr Paper hair = point(0.4);

inline std::string place(const Rect& box) { return fmt::format("at {:.1f},{:.1f}", box.left.in(point), box.top.in(point)); }

inline bool blank(const GlyphRun& run) { return run.text.find_first_not_of(' ') == std::string::npos; }

/// From the baseline to 0.55 of the size above it: the x-height of both families (Inter 0.545 by its OS/2 table [seen], DejaVu
/// Sans 0.547 [memory]).
inline Rect x_height_band(const GlyphRun& run) {
    const Paper height = run.size * 0.55;
    if (run.rotated) return {run.origin.x - height, run.origin.y - run.advance, height, run.advance};
    return {run.origin.x, run.origin.y - height, run.advance, height};
}

inline bool cover(const Rect& one, const Rect& other) {
    return std::min(one.right(), other.right()) - std::max(one.left, other.left) > hair &&
           std::min(one.bottom(), other.bottom()) - std::max(one.top, other.top) > hair;
}

/// What an item covers, and what to call it.
struct Drawn {
    std::optional<Rect> box;
    std::string words;
};
inline Drawn drawn(const GlyphRun& run) { return {bounds(run), "the text \"" + run.text + "\""}; }
inline Drawn drawn(const Path& path) { return {bounds(path), "a path"}; }
inline Drawn drawn(const Image& image) { return {image.box, "an image"}; }
inline Drawn drawn(const Link& link) { return {link.box, "a link"}; }
inline Drawn drawn(const Bookmark&) { return {}; }
inline Drawn drawn(const Group&) { return {}; }

/// The innermost clip around an item.
inline std::optional<Rect> clip_of(const Around& around) {
    const auto clipping = std::find_if(around.rbegin(), around.rend(), [](const Group* group) { return group->clip.has_value(); });
    return clipping == around.rend() ? std::nullopt : (*clipping)->clip.value();
}

inline std::string hex(Colour colour) { return fmt::format("#{:02X}{:02X}{:02X}", colour.red, colour.green, colour.blue); }

}  // namespace checking

/// Items that reach over the page's edge.
inline Findings items_off_the_page(const frame::Frame& page) {
    using namespace checking;
    Findings found;
    walk(page.items, [&](const auto& item, const Around& around) {
        auto [box, words] = drawn(item);
        if (!box) return;
        // What a clip cuts away is not seen: only the clip itself has to stay on the page.
        box = clip_of(around).value_or(*box);
        if (box->left < Paper{} || box->top < Paper{} || box->right() > page.width || box->bottom() > page.height)
            found.push_back(words + " reaches off the page " + place(*box));
    });
    return found;
}

/// Pairs of texts whose x-height bands cover each other.
inline Findings overlapping_texts(const frame::Frame& page) {
    using namespace checking;
    std::vector<const GlyphRun*> runs;
    walk(page.items, [&](const GlyphRun& run) {
        if (!blank(run)) runs.push_back(&run);
    });
    Findings found;
    for (std::size_t i = 0; i < runs.size(); ++i)
        for (std::size_t k = i + 1; k < runs.size(); ++k)
            if (cover(x_height_band(*runs[i]), x_height_band(*runs[k])))
                found.push_back(
                    fmt::format("\"{}\" and \"{}\" overlap {}", runs[i]->text, runs[k]->text, place(x_height_band(*runs[k]))));
    return found;
}

/// Texts with glyph 0, without glyphs, or whose clusters don't add up to text and glyphs.
inline Findings missing_glyphs(const frame::Frame& page) {
    using namespace checking;
    Findings found;
    walk(page.items, [&](const GlyphRun& run) {
        std::size_t bytes = 0, glyphs = 0;
        for (const Cluster& cluster : run.clusters) bytes += cluster.bytes, glyphs += cluster.glyphs;
        if (run.glyphs.empty()) found.push_back("the text \"" + run.text + "\" has no glyphs");
        if (std::ranges::any_of(run.glyphs, [](const Glyph& glyph) { return glyph.id == 0; }))
            found.push_back("the text \"" + run.text + "\" has a missing glyph");
        if (bytes != run.text.size() || glyphs != run.glyphs.size())
            found.push_back("the clusters of \"" + run.text + "\" do not add up to its text and glyphs");
    });
    return found;
}

/// Text colours below 4.5:1 on white (WCAG 2.1, 1.4.3).
inline Findings weak_text_colours(const frame::Frame& page) {
    using namespace checking;
    Findings found;
    walk(page.items, [&](const GlyphRun& run) {
        if (const double ratio = contrast(run.colour, white); ratio < 4.5)
            found.push_back(fmt::format("\"{}\" in {} has {:.2f}:1 on white", run.text, hex(run.colour), ratio));
    });
    return found;
}

/// Of the given colours, those below 3:1 on white (WCAG 2.1, 1.4.11): for strokes and marks that say something by themselves.
inline Findings weak_colours(const std::vector<frame::Colour>& essential) {
    using namespace checking;
    Findings found;
    for (const Colour colour : essential)
        if (const double ratio = contrast(colour, white); ratio < 3.0)
            found.push_back(fmt::format("{} has {:.2f}:1 on white", hex(colour), ratio));
    return found;
}

/// Pairs of the given colours that fall closer together than `ratio` when printed in grey. A pair found must differ in dash or
/// marker too.
inline Findings alike_in_grey(const std::vector<frame::Colour>& colours, double ratio = 1.3) {
    using namespace checking;
    Findings found;
    for (std::size_t i = 0; i < colours.size(); ++i)
        for (std::size_t k = i + 1; k < colours.size(); ++k)
            if (const double apart = contrast(colours[i], colours[k]); apart < ratio)
                found.push_back(fmt::format("{} and {} are alike in grey ({:.2f}:1)", hex(colours[i]), hex(colours[k]), apart));
    return found;
}

/// Figures without alternative text, head cells without scope, texts directly in a table, row or list.
inline Findings structure_faults(const frame::Frame& page) {
    using namespace checking;
    Findings found;
    const auto only_elements = [](const Around& around) {
        constexpr std::array holders{Role::Table, Role::TableRow, Role::TableHead, Role::TableBody, Role::List, Role::ListItem};
        return !around.empty() && std::ranges::find(holders, around.back()->role) != holders.end();
    };
    walk(page.items, overloaded{[&](const GlyphRun& run, const Around& around) {
                                    if (only_elements(around)) found.push_back("\"" + run.text + "\" stands outside a cell or body");
                                },
                                [&](const Group& group) {
                                    if (group.role == Role::Figure && group.alternative.empty())
                                        found.push_back("the figure \"" + group.id + "\" has no alternative text");
                                    if (group.role == Role::HeadCell && group.scope == Scope::None)
                                        found.push_back("a head cell has no scope");
                                }});
    return found;
}

/// All of the above that need no colours from outside.
inline Findings page_faults(const frame::Frame& page) {
    using namespace checking;
    Findings all;
    for (const auto& check : {items_off_the_page, overlapping_texts, missing_glyphs, weak_text_colours, structure_faults})
        for (std::string& finding : check(page)) all.push_back(std::move(finding));
    return all;
}

/// All words of these items in the order of the items, each run followed by a blank.
inline std::string words_of(const std::vector<frame::Item>& items) {
    std::string words;
    frame::walk(items, [&](const frame::GlyphRun& run) { words += run.text + " "; });
    return words;
}

}  // namespace wayfolio::testing
