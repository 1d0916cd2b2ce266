#pragma once
#include "gather/exports/read_export.hpp"

#include <string>
#include <vector>

namespace wayfolio::gather {

struct Proposal {
    std::string mapping;  ///< JSON; what the exports do not say is an open place, "?"
    std::string preview;  ///< for a reader: the first rows of each export, with what each column would become
};

/// Looks at the beginning of each export and writes down what can be seen there: encoding, delimiter, marks of numbers, heads, what a
/// head's own words say. What they do not say (sign, unit, approach, which error) is left open: it is never guessed.
/// @throws input::InputMissing; input::InputRejected for exports in which no rows of numbers can be seen
Proposal propose(const std::vector<ExportFile>& exports);

}  // namespace wayfolio::gather
