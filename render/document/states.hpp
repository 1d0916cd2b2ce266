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

/// "as found", "as left", or the user's own word; empty if the series names none.
std::string state_words(std::string_view state);
/// "EXX, as left": what a reader calls a series, whose id is a matter of the document.
std::string name_of_series(const ErrorSymbol& error, std::string_view state);
std::string name_of_series(const Series& series);

}  // namespace wayfolio::document
