#pragma once
#include "text/threads.hpp"

#include <deque>
#include <exception>
#include <future>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::output {

/// The content of a page as Cairo wrote it, with each mark named as what it is, and artifacts without a number.
/// @param types of the records with marked content on this page, in the order of drawing
/// @throws std::logic_error when the page does not hold the marked content of exactly these in this order
std::string with_types_named(std::string_view content, const std::vector<std::string_view>& types);

/// The content of a page with the places of its paths and the beginnings of its texts on a grid of a hundredth of a point, and its colours
/// of a thousandth: Cairo writes six digits, of which the last show nothing at 600 dpi (a dot is 0.12 pt) or in eight bits, and which
/// hardly pack. Places within a text stay as they are: each follows from the one before, and rounding would add up.
std::string with_short_places(std::string_view content);

/// Names of the fonts that a content sets, each with the slash before it.
std::set<std::string> fonts_set(std::string_view content);

/// What is written of a page, packed.
struct PageContent {
    std::string packed;
    std::set<std::string> fonts;  ///< that it sets
};

/// The content of the page that Cairo wrote last, packed as it lies there; empty where it is not to be found.
/// @param written all that Cairo wrote for that page
std::string_view content_in(std::string_view written);

/// Contents of pages: made ready on one thread more while Cairo draws the pages behind them, where there may be one.
class PageContents {
public:
    explicit PageContents(text::Threads threads) : threads_(threads) {}

    /// Takes what Cairo wrote for one more page.
    /// @param types of what was marked on it, in the order of drawing
    void add(std::string_view written, std::vector<std::string_view> types);

    /// All of them. What was made ready counts only where it is the content of the finished file.
    /// @param contents of the finished file, page by page, packed as they lie there
    /// @throws as with_types_named
    std::vector<PageContent> take(const std::vector<std::string>& contents);

private:
    struct Page {
        std::string written;
        std::vector<std::string_view> types;
        PageContent ready;
        std::exception_ptr failed;
        bool tried = false;
    };
    static void make_ready(Page& page);

    text::Threads threads_;
    std::deque<Page> pages_;
    std::size_t begun_ = 0;      ///< so many were given to the other thread
    std::future<void> running_;  ///< last, for it ends before what it works on does
};

}  // namespace wayfolio::output
