#pragma once
#include "gather/exports/read_export.hpp"
#include "gather/propose/read_as.hpp"

#include <optional>
#include <string>
#include <vector>

/// What can be seen of an export. Private to propose().
namespace wayfolio::gather {

using Cells = std::vector<std::string>;

struct LineCells {
    std::size_t line;
    Cells cells;
};

struct LookedAt {
    std::string name, sheet;  ///< the sheet that was chosen; "" for a text, or the only one
    bool is_sheet = false;
    Dialect dialect;
    Encoding letters = Encoding::Utf8;  ///< as they are, where a mark says it too
    bool encoding_needed = false;       ///< a mapping has to say it: no mark does, and they are not UTF-8; or a person said it
    bool decimal_open = false;     ///< both readings of "1,234" are possible
    std::vector<Cells> above;      ///< the last rows before the head
    Cells heads;                   ///< empty where there is none; of two lines, both
    bool by_number = false;        ///< no single row tells the columns apart: they are named by their numbers
    std::size_t first_row = 1;     ///< line of the first row of numbers
    std::vector<Cells> rows;       ///< of numbers, the first few
    bool several_blocks = false;   ///< the head stands more than once
};

/// @param sheet of a spreadsheet; "" for its only one
/// @param said of a text: what need not be looked for
/// @throws input::InputRejected where no rows of numbers can be seen, or no such sheet
LookedAt look_at(const ExportFile& file, const std::string& sheet, const ReadAs& said);

/// Finds the head, and with it the lines above and the rows below.
void find_head(const std::vector<LineCells>& lines, LookedAt& seen);

/// How many cells are numbers.
std::size_t numbers_in(const Cells& cells);

/// Rows in which numbers stand in columns.
bool is_row_of_numbers(const LineCells& line);

/// Whether a cell is a number by one of the two decimal marks.
bool looks_like_number(std::string_view text);

}  // namespace wayfolio::gather
