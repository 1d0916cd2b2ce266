#pragma once
#include "gather/exports/read_export.hpp"

#include <optional>
#include <string>
#include <vector>

/// What can be seen of an export. Private to propose().
namespace wayfolio::gather {

using Cells = std::vector<std::string>;

struct LookedAt {
    std::string name, sheet;
    bool is_sheet = false;
    Dialect dialect;
    bool encoding_needed = false;  ///< no mark says it, and it is not UTF-8
    bool decimal_open = false;     ///< both readings of "1,234" are possible
    std::vector<Cells> above;      ///< the last rows before the head
    Cells heads;                   ///< empty where there is none
    std::size_t first_row = 1;     ///< line of the first row of numbers
    std::vector<Cells> rows;       ///< of numbers, the first few
    bool several_blocks = false;   ///< the head stands more than once
};

/// @throws input::InputRejected where no rows of numbers can be seen
LookedAt look_at(const ExportFile& file);

/// Whether a cell is a number by one of the two decimal marks.
bool looks_like_number(std::string_view text);

}  // namespace wayfolio::gather
