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

/// A paragraph as it stands on the page.
struct Placed {
    Group group;
    Paper last;  ///< baseline of its last line; a line above `top` where it is empty
    std::size_t lines = 0;
};
/// A text that may stand on several pages: shaped and broken once, placed line by line.
class FlowingText {
public:
    /// @throws text::GlyphMissing
    FlowingText(const Tools& tools, const Text& words, const Look& look, Paper width);

    [[nodiscard]] std::size_t size() const { return lines_.size(); }
    [[nodiscard]] Paper leading() const { return leading_; }
    /// Lines from `first` to before `end`, the first of them with its baseline at `top`.
    [[nodiscard]] Placed part(std::size_t first, std::size_t end, Point top, frame::Role role) const;

private:
    std::vector<text::Line> lines_;
    Paper leading_;
};

/// What the margin of one page had no room for.
struct MarginRest {
    FlowingText text;
    std::size_t from;  ///< the first line that is not placed yet
    Paper left;
};

/// One page while it is being filled.
struct Draft {
    std::vector<Item> items;
    Paper margin_free;  ///< the margin column is taken down to here
    std::optional<Point> goes_on =
        std::nullopt;  ///< right end of the line that names the next page, whose number comes when all are filled
};

/// Two columns of text over the whole width, filled one after the other.
struct TextColumns {
    Paper top, bottom;
    Paper deepest;  ///< last line of the one that is filled
    bool in_second = false;
};

/// How far columns of text reach: down to `last_bottom` on the last of their pages, to the page's end on those before.
struct ColumnPages {
    int pages;
    Paper last_bottom;
};

/// Fills pages from top to bottom on the layout's grid. Knows the grid and what is taken; blocks decide what stands where. A new one has no
/// page yet: new_page comes first. One thread at a time, as its shaper.
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
    /// Set by page_of: what is being placed must be placed again when all pages are known.
    bool asked_for_pages = false;
    /// Notes that `anchor` stands on the current page.
    void set_anchor(const std::string& anchor) { anchors_[anchor] = page_number(); }
    [[nodiscard]] const PageNumbers& anchors() const { return anchors_; }

    void add(Item item) { drafts_.back().items.push_back(std::move(item)); }
    /// Said behind each block: whether another may begin below it.
    bool may_share_page = false;

    /// The next baseline of the wide column that is free.
    Paper y;

    /// Baseline k of the grid.
    [[nodiscard]] Paper baseline(int k) const { return grid().first_baseline + grid().baseline_step * k; }
    /// The first grid baseline at or below `at`.
    [[nodiscard]] Paper on_grid(Paper at) const;
    [[nodiscard]] Paper last_baseline() const { return columns_ ? columns_->bottom : grid().last_baseline; }

    /// Text goes on in two columns from y on.
    void begin_columns(const ColumnPages& planned);
    /// Text goes on in one such column without an end, to see how high it is.
    void begin_endless_column();
    /// Goes on at the top of the second column. @return false where there is none: a new page is needed
    bool next_column();
    /// The columns begin again here, on a new page.
    void restart_columns();
    /// Where the columns of this page begin, and how much of both is taken.
    struct ColumnExtent {
        Paper top, both;
        bool second_used;
    };
    [[nodiscard]] ColumnExtent column_extent() const;
    /// y goes below the deeper of the two.
    void end_columns();
    [[nodiscard]] bool in_columns() const { return columns_.has_value(); }
    /// Edges of text: of the wide column, or of one of two.
    [[nodiscard]] Paper text_left() const;
    [[nodiscard]] Paper text_right() const;
    [[nodiscard]] bool fits(Paper height) const { return y + height <= last_baseline() + rounding; }
    /// The lower end of what is drawn on the page.
    [[nodiscard]] Paper last_ink() const { return last_ink(drafts_.back()); }
    [[nodiscard]] Paper last_ink(const Draft& page) const;
    /// How much of the page is empty below its last ink: 0 to 1.
    [[nodiscard]] double empty_share() const { return empty_share(drafts_.back()); }
    [[nodiscard]] double empty_share(const Draft& page) const;

    /// How far the margin column of this page is taken.
    Paper& margin_free() { return drafts_.back().margin_free; }

    /// How many lines of a text fit into the margin column from `top` on.
    [[nodiscard]] std::size_t lines_in_margin(std::size_t lines, Paper leading, Paper top) const;
    /// Takes lines into the margin column of the next page, in the order in which they were left over.
    void leave_for_next_margin(FlowingText text, std::size_t from, Paper left) {
        if (from < text.size()) margin_rests_.push_back({std::move(text), from, left});
    }
    /// Whether margins still have something for the next page.
    [[nodiscard]] bool has_margin_rests() const { return !margin_rests_.empty(); }

    /// The table above goes on: the next page is named in the line that ends here.
    void set_goes_on(Point right_end) { drafts_.back().goes_on = right_end; }

    std::vector<Draft> take() { return std::move(drafts_); }

private:
    void place_margin_rests();

    static constexpr Paper rounding = pt(0.01);  ///< sums of heights may miss a baseline by that much

    const Tools& tools_;
    const PageNumbers& known_;
    PageNumbers anchors_;
    std::vector<Draft> drafts_;
    std::vector<MarginRest> margin_rests_;
    std::optional<TextColumns> columns_;
    ColumnPages column_pages_{};  ///< what is planned from the current page on
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
