#pragma once
#include "plot/tools.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace wayfolio::page {

using frame::Group;
using frame::Item;
using frame::Paper;
using frame::Point;
using frame::Rect;
using plot::Align;
using plot::ColourRole;
using plot::Look;
using plot::PenRole;
using plot::pt;
using plot::SizeRole;
using plot::Tools;
using plot::TypeRole;
using report::Text;

/// On which page each anchor stands, from an earlier pass.
using PageNumbers = std::map<std::string, int>;

/// One page while it is being filled.
struct Draft {
    std::vector<Item> items;
    Paper margin_free;  ///< the margin column is taken down to here
    std::optional<Point> goes_on =
        std::nullopt;  ///< right end of the line that names the next page, whose number comes when all are filled
};

/// Fills pages from top to bottom on the layout's grid. Knows the grid and what is taken; blocks decide what stands where. A new one has no
/// page yet: new_page or begin_block comes first. One thread at a time, as its shaper.
class Composer {
public:
    Composer(const Tools& tools, const PageNumbers& known) : tools_(tools), known_(known) {}

    [[nodiscard]] const Tools& tools() const { return tools_; }
    [[nodiscard]] const layouts::PaperGrid& grid() const { return tools_.layout.grid(); }

    void new_page();
    /// The current page, counted from 1 at the first one that this composer fills.
    [[nodiscard]] int page_number() const { return static_cast<int>(drafts_.size()); }
    /// The page an anchor stands on, 0 while that is not yet known.
    [[nodiscard]] int page_of(const std::string& anchor);
    /// Set by page_of: the block must be placed again when all pages are known.
    bool asked_for_pages = false;
    /// Notes that `anchor` stands on the current page.
    void set_anchor(const std::string& anchor) { anchors_[anchor] = page_number(); }
    [[nodiscard]] const PageNumbers& anchors() const { return anchors_; }

    void add(Item item) { drafts_.back().items.push_back(std::move(item)); }
    /// Begins a block below the one before it where that may share its page and `least` still fits, else on a new page.
    void begin_block(Paper least);
    /// Said before each block: whether it may begin below the one before it.
    bool may_share_page = false;

    /// The next baseline of the wide column that is free.
    Paper y;

    /// Baseline k of the grid.
    [[nodiscard]] Paper baseline(int k) const { return grid().first_baseline + grid().baseline_step * k; }
    /// The first grid baseline at or below `at`.
    [[nodiscard]] Paper on_grid(Paper at) const;
    [[nodiscard]] Paper last_baseline() const { return grid().last_baseline; }
    [[nodiscard]] bool fits(Paper height) const { return y + height <= last_baseline() + rounding; }

    /// How far the margin column of this page is taken.
    Paper& margin_free() { return drafts_.back().margin_free; }

    /// The table above goes on: the next page is named in the line that ends here.
    void set_goes_on(Point right_end) { drafts_.back().goes_on = right_end; }

    std::vector<Draft> take() { return std::move(drafts_); }

private:
    static constexpr Paper rounding = pt(0.01);  ///< sums of heights may miss a baseline by that much

    const Tools& tools_;
    const PageNumbers& known_;
    PageNumbers anchors_;
    std::vector<Draft> drafts_;
};

/// A paragraph as it stands on the page.
struct Placed {
    Group group;
    Paper last;  ///< baseline of its last line; a line above `top` where it is empty
    std::size_t lines = 0;
};
/// A paragraph as a group of its own.
/// @param top baseline of the first line
/// @throws text::GlyphMissing
Placed paragraph(const Tools& tools, const Text& words, const Look& look, Point top, Paper width,
                 frame::Role role = frame::Role::Paragraph);

/// Height that a paragraph takes, from its first to its last baseline.
Paper paragraph_height(const Tools& tools, const Text& words, const Look& look, Paper width);

/// One line with a role of its own.
Group text_line(const Tools& tools, const Text& words, const Look& look, Point at, Align align, frame::Role role);

/// A decoration: rules, symbols, lines that are not read aloud.
Group artifact(std::vector<Item> items);

}  // namespace wayfolio::page
