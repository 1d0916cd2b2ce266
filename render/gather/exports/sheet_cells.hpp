#pragma once
#include <cstddef>
#include <cstdint>

/// What the module that reads spreadsheets says to the program. It is loaded when a spreadsheet comes, so it speaks C: no exception and no
/// type of the C++ library goes from one to the other.
namespace wayfolio::gather {

/// Takes what a spreadsheet holds: each sheet, then its cells, row by row. Rows and columns count from 1. A number comes with its value,
/// any other cell with its text (UTF-8, not ended by NUL).
struct SheetTaker {
    void* context;
    void (*sheet)(void* context, const char* name, std::size_t size);
    void (*text)(void* context, std::uint32_t row, std::uint32_t column, const char* text, std::size_t size);
    void (*number)(void* context, std::uint32_t row, std::uint32_t column, double number);
};

enum class SheetForm : int { Xlsx, Ods };

/// The function `wayfolio_read_sheets` of the module. @returns 0, or 1 and what is wrong in `error` (ended by NUL)
using ReadSheets = int(const char* bytes, std::size_t size, SheetForm form, const SheetTaker* taker, char* error, std::size_t error_size);

/// Cells of one file beyond which it is no table of readings.
inline constexpr std::size_t most_sheet_cells = 3'000'000;

}  // namespace wayfolio::gather
