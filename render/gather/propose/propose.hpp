#pragma once
#include "gather/exports/read_export.hpp"

#include <string>
#include <vector>

namespace wayfolio::gather {

/// A column as it was looked at.
struct ColumnSeen {
    std::string head;     ///< "" where there is none
    std::string becomes;  ///< in words
    std::vector<std::string> first;
};

/// An export, or several that differ in the digits of their names alone.
struct ExportSeen {
    std::string file;
    std::vector<ColumnSeen> columns;
    bool several_blocks = false;  ///< the head stands more than once
};

struct Proposal {
    std::string mapping;  ///< JSON; what the exports do not say is an open place, "?"
    std::vector<ExportSeen> exports;
};

/// Looks at the beginning of each export and writes down what can be seen there: encoding, delimiter, marks of numbers, heads, what a
/// head's own words say. What they do not say (sign, unit, approach, which error) is left open: it is never guessed.
/// @throws input::InputMissing; input::InputRejected for exports in which no rows of numbers can be seen
Proposal propose(const std::vector<ExportFile>& exports);

/// For a reader: the first rows of each export, with what each column would become.
std::string preview_text(const Proposal& proposal);

}  // namespace wayfolio::gather
