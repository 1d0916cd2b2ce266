#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

#include <optional>

namespace wayfolio::report {

/// The two states a document compares: as found and as left, else the first and the last that it names.
struct StatesCompared {
    std::string first, second;
};
std::optional<StatesCompared> states_compared(const document::Document& document);

/// As found beside as left: up to three quantities drawn (the worst first), all of them in the table.
/// Empty when no error was measured in both states.
std::optional<States> states(const Subject& subject);

}  // namespace wayfolio::report
