#pragma once
#include "document/document.hpp"

namespace wayfolio::evaluate {

enum class SetupVerdict { Pass, Fail, NotDecided };

/// The verdict on one set-up check, by the document's own limit: the program has none.
struct SetupOutcome {
    std::size_t check;  ///< place in setup.checks
    std::string name;
    SetupVerdict outcome;
    std::string reason;            ///< for NotDecided
    bool common_practice = false;  ///< to be printed "common practice, no source"
};

/// One outcome per check, in the document's order. A reading equal to its limit passes.
std::vector<SetupOutcome> evaluate_setup(const document::Document& document);

}  // namespace wayfolio::evaluate
