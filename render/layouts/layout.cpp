#include "layouts/layout.hpp"

#include <algorithm>
#include <stdexcept>

namespace wayfolio::layouts {

const PaperGrid& Layout::grid() const {
    const auto found = std::ranges::find(papers, paper, &PaperGrid::name);
    if (found == papers.end()) throw std::logic_error("the layout has no paper \"" + paper + "\"");
    return *found;
}

}  // namespace wayfolio::layouts
