#pragma once
#include <future>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::output {

/// Makes the contents of pages ready in the background while Cairo draws the pages that follow: packing takes about as long as drawing.
class PageContents {
public:
    /// @param written what Cairo wrote when it showed the page
    /// @param types as in with_types_named
    void add(std::string_view written, std::vector<std::string> types);

    /// The content stream of each page as it goes into the file, packed; waits for all.
    /// @throws std::logic_error when a page does not hold what was drawn
    std::vector<std::string> take();

private:
    std::vector<std::future<std::string>> pages_;
};

}  // namespace wayfolio::output
