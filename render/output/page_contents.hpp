#pragma once
#include <future>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::output {

/// The content stream of a page as it goes into the file, packed.
struct PageContent {
    int object;  ///< number of the stream that it stands for
    std::string packed;
};

/// Makes the contents of pages ready in the background while Cairo draws the pages that follow: packing takes about as long as drawing.
class PageContents {
public:
    /// @param written what Cairo wrote when it showed the page
    /// @param types as in with_artifacts_named
    void add(std::string_view written, std::vector<std::string> types);

    /// Of all pages; waits for them.
    /// @throws std::logic_error when a page does not hold what was drawn
    std::vector<PageContent> take();

private:
    std::vector<std::future<PageContent>> pages_;
};

}  // namespace wayfolio::output
