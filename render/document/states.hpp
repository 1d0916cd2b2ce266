#pragma once
#include "document/document.hpp"

namespace wayfolio::document {

/// The two states that a document compares: as found and as left, else the first and the last that it names.
struct StatesCompared {
    std::string first, second;
};

/// Of the states of its series, in their order; nothing where they name fewer than two. One that is empty names none.
std::optional<StatesCompared> states_compared(const std::vector<std::string>& states);
std::optional<StatesCompared> states_compared(const Document& document);

}  // namespace wayfolio::document
