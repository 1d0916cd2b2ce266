#include "document/states.hpp"

#include <algorithm>

namespace wayfolio::document {

std::optional<StatesCompared> states_compared(const std::vector<std::string>& states) {
    std::vector<std::string> names;
    for (const std::string& state : states)
        if (!state.empty() && std::ranges::find(names, state) == names.end()) names.push_back(state);
    if (names.size() < 2) return std::nullopt;
    const bool usual = std::ranges::find(names, "as-found") != names.end() && std::ranges::find(names, "as-left") != names.end();
    return usual ? StatesCompared{"as-found", "as-left"} : StatesCompared{names.front(), names.back()};
}

std::optional<StatesCompared> states_compared(const Document& document) {
    std::vector<std::string> states;
    for (const Series& series : document.series) states.push_back(series.state);
    return states_compared(states);
}

}  // namespace wayfolio::document
