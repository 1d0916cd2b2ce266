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

std::string state_words(std::string_view state) {
    if (state == "as-found") return "as found";
    if (state == "as-left") return "as left";
    return std::string(state);
}

std::string name_of_series(const ErrorSymbol& error, std::string_view state) {
    const std::string words = state_words(state);
    return error.text() + (words.empty() ? "" : ", " + words);
}

std::string name_of_series(const Series& series) { return name_of_series(series.error, series.state); }

}  // namespace wayfolio::document
