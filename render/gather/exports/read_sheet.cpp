#include "gather/exports/read_export.hpp"
#include "gather/exports/sheet_cells.hpp"
#include "input/digest.hpp"
#include "input/encoding.hpp"
#include "input/json/nearest.hpp"
#include "input/module_function.hpp"
#include "input/read_file.hpp"
#include "units/number_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <deque>

namespace wayfolio::gather {
namespace {

/// One sheet as it comes, row by row.
struct TakenCell {
    std::uint32_t row, column;
    std::string text;
    std::optional<double> number;
};
struct TakenSheet {
    std::string name;
    std::vector<TakenCell> cells;
};
using TakenSheets = std::deque<TakenSheet>;

SheetTaker taker_of(TakenSheets& sheets) {
    return {&sheets,
            [](void* into, const char* name, std::size_t size) {
                static_cast<TakenSheets*>(into)->push_back({std::string(name, size), {}});
            },
            [](void* into, std::uint32_t row, std::uint32_t column, const char* text, std::size_t size) {
                static_cast<TakenSheets*>(into)->back().cells.push_back({row, column, std::string(text, size), std::nullopt});
            },
            [](void* into, std::uint32_t row, std::uint32_t column, double number) {
                const std::string text = std::isfinite(number) ? units::shortest(number) : "not a number";
                static_cast<TakenSheets*>(into)->back().cells.push_back(
                    {row, column, text, std::isfinite(number) ? std::optional(number) : std::nullopt});
            }};
}

std::uint32_t number_at(std::string_view bytes, std::size_t at) {
    std::uint32_t number = 0;
    for (std::size_t place = 4; place-- > 0;) number = number * 256 + static_cast<unsigned char>(bytes[at + place]);
    return number;
}

/// What the archive says it unpacks to (APPNOTE 4.3.12, from memory): a small file could fill the memory.
std::uint64_t unpacked_size(std::string_view bytes) {
    constexpr std::string_view entry = "PK\x01\x02";
    constexpr std::size_t size_at = 24, head = 46;
    std::uint64_t sum = 0;
    for (std::size_t at = bytes.find(entry); at != std::string_view::npos && at + head <= bytes.size(); at = bytes.find(entry, at + 4))
        sum += number_at(bytes, at + size_at);
    return sum;
}

/// Reads a workbook whole. @returns its SHA-256
std::string take_sheets(const ExportFile& file, ExportFaults& faults, TakenSheets& sheets) {
    std::string bytes;
    file.read([&](std::string_view piece) {
        if (bytes.size() <= input::largest_file) bytes += piece;
    });
    std::string digest = input::sha256_hex(bytes);
    constexpr std::uint64_t most_unpacked = std::uint64_t{512} << 20;
    if (bytes.size() > input::largest_file || unpacked_size(bytes) > most_unpacked) {
        faults.add(Spot{}, "a spreadsheet that unpacks to more than 512 MiB", "a table of readings", "save the sheet as text");
        return digest;
    }
    static const input::ModuleFunction module = input::module_function("wayfolio-sheets", "wayfolio_read_sheets");
    if (module.function == nullptr) {
        faults.add(Spot{}, "a spreadsheet, for which a library is missing: " + module.failure, "liborcus, or the sheet saved as text");
        return digest;
    }
    const SheetTaker taker = taker_of(sheets);
    std::array<char, 256> error{};
    const SheetForm form = file.name.ends_with("s") || file.name.ends_with("S") ? SheetForm::Ods : SheetForm::Xlsx;
    auto* const read = reinterpret_cast<ReadSheets*>(module.function);
    if (read(bytes.data(), bytes.size(), form, &taker, error.data(), error.size()) != 0)
        faults.add(Spot{}, fmt::format("a spreadsheet that cannot be read ({})", input::printable(error.data())),
                   "a sound .xlsx or .ods file");
    return digest;
}

const TakenSheet* chosen(const TakenSheets& sheets, std::string_view wanted, ExportFaults& faults) {
    std::vector<std::string_view> names;
    const TakenSheet* only = nullptr;
    for (const TakenSheet& sheet : sheets) {
        if (sheet.cells.empty()) continue;
        names.push_back(sheet.name);
        if (wanted.empty() || sheet.name == wanted) only = &sheet;
    }
    if (wanted.empty() && names.size() > 1)
        faults.add(Spot{}, fmt::format("{} sheets", names.size()),
                   "one sheet, or its name under \"sheet\" in the mapping: " + input::listed(names));
    else if (only == nullptr)
        faults.add(Spot{}, wanted.empty() ? "no sheet with cells" : "no sheet " + input::quoted(wanted),
                   "one of the sheets: " + input::listed(names), input::nearest_hint(wanted, names));
    else
        return only;
    return nullptr;
}

/// Cells that are not there stand as empty ones, so that a place in a row is a column.
void hand_on(const TakenSheet& sheet, const RowSink& sink) {
    std::vector<Cell> cells;
    for (std::size_t at = 0; at < sheet.cells.size();) {
        const std::uint32_t row = sheet.cells[at].row;
        cells.clear();
        for (; at < sheet.cells.size() && sheet.cells[at].row == row; ++at) {
            const TakenCell& cell = sheet.cells[at];
            while (cells.size() + 1 < cell.column) cells.push_back({{}, row, static_cast<std::uint32_t>(cells.size() + 1)});
            if (cells.size() < cell.column) cells.push_back({cell.text, row, cell.column, cell.number});
        }
        sink({row, cells});
    }
}

}  // namespace

bool is_sheet_name(std::string_view name) {
    const auto ends = [&](std::string_view ending) {
        return name.size() > ending.size() && std::ranges::equal(name.substr(name.size() - ending.size()), ending, [](char a, char b) {
                   return a == b || (a >= 'A' && a <= 'Z' && a - 'A' + 'a' == b);
               });
    };
    return ends(".xlsx") || ends(".ods");
}

std::string read_sheet_rows(const ExportFile& file, std::string_view wanted, ExportFaults& faults, const RowSink& sink) {
    TakenSheets sheets;
    const std::string digest = take_sheets(file, faults, sheets);
    if (faults.any()) return digest;
    if (const TakenSheet* const sheet = chosen(sheets, wanted, faults)) {
        faults.in_sheet(sheet->name);
        hand_on(*sheet, sink);
    }
    return digest;
}

std::vector<std::string> sheets_of(const ExportFile& file, ExportFaults& faults) {
    TakenSheets sheets;
    take_sheets(file, faults, sheets);
    std::vector<std::string> names;
    for (const TakenSheet& sheet : sheets)
        if (!sheet.cells.empty()) names.push_back(sheet.name);
    return names;
}

std::string read_rows(const ExportFile& file, const RowsOf& rows, ExportFaults& faults, const RowSink& sink) {
    return is_sheet_name(file.name) ? read_sheet_rows(file, rows.sheet, faults, sink) : read_text_rows(file, rows.dialect, faults, sink);
}

}  // namespace wayfolio::gather
