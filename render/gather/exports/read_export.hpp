#pragma once
#include "gather/exports/rows.hpp"

#include <functional>
#include <string>
#include <string_view>

namespace wayfolio::gather {

/// A file to gather readings from. It is read in pieces, each once.
struct ExportFile {
    std::string name;  ///< without its folder
    std::string path;  ///< for messages
    /// Hands on all bytes in pieces of any size. @throws input::InputMissing
    std::function<void(const std::function<void(std::string_view)>&)> read;
};

/// A file on disk. @throws nothing until it is read
ExportFile export_file(const std::string& path);
/// Bytes at hand, which must outlive the result.
ExportFile export_of_bytes(std::string name, std::string_view bytes);

/// How the rows of an export are had.
struct RowsOf {
    const Dialect& dialect;
    std::string_view sheet;  ///< of a spreadsheet; "" for its only one
};

/// Hands on the rows of a text or of a sheet, by the file's name. What cannot be read is noted in `faults`.
/// @returns the SHA-256 of the bytes, as 64 hexadecimal digits
std::string read_rows(const ExportFile& file, const RowsOf& rows, ExportFaults& faults, const RowSink& sink);

/// Whether a file is a spreadsheet, by its name: .xlsx or .ods.
bool is_sheet_name(std::string_view name);

/// Hands on the rows of a text. What cannot be read is noted in `faults`.
/// @returns the SHA-256 of the bytes, as 64 hexadecimal digits
std::string read_text_rows(const ExportFile& file, const Dialect& dialect, ExportFaults& faults, const RowSink& sink);

/// The same of a sheet: a spreadsheet is read whole, through a module that is loaded for it.
std::string read_sheet_rows(const ExportFile& file, std::string_view wanted, ExportFaults& faults, const RowSink& sink);

/// The sheets of a workbook that hold anything, by their names in its order. What cannot be read is noted in `faults`.
std::vector<std::string> sheets_of(const ExportFile& file, ExportFaults& faults);

}  // namespace wayfolio::gather
