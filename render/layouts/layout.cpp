#include "layouts/layout.hpp"

#include <algorithm>
#include <stdexcept>

namespace wayfolio::layouts {
namespace {

/// The reader holds every layout to the roles; a role that is missing here was never listed there.
template <class Map>
const auto& of_role(const Map& map, std::string_view role) {
    const auto found = map.find(role);
    if (found == map.end()) throw std::logic_error("the layout has no role \"" + std::string(role) + "\"");
    return found->second;
}

}  // namespace

const PaperGrid& Layout::grid() const {
    const auto found = std::ranges::find(papers, paper, &PaperGrid::name);
    if (found == papers.end()) throw std::logic_error("the layout has no paper \"" + paper + "\"");
    return *found;
}

const Pen& Layout::pen(std::string_view role) const { return of_role(pens, role); }
Colour Layout::colour(std::string_view role) const { return of_role(colours, role); }
const TypeRole& Layout::type_role(std::string_view role) const { return of_role(type, role); }
Paper Layout::size(std::string_view role) const { return of_role(sizes, role); }

}  // namespace wayfolio::layouts
