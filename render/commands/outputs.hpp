#pragma once
#include "commands/command.hpp"
#include "front/evaluated.hpp"
#include "layouts/layout.hpp"

#include <filesystem>
#include <string>
#include <string_view>

/// Where a command writes: never onto what it reads, and never into a record, whose files nothing may change.
namespace wayfolio::commands {

using front::FilesRead;

/// A document with its side files, and a layout with those that it extends.
FilesRead files_read(const document::Document& document, const layouts::Layout& layout);

/// Refuses an output that is missing, that is one of the files read (under any name, also by a link), or that lies in a record.
/// @throws UsageError
void require_output(const std::string& output, const FilesRead& read);

/// Refuses a place inside a bag or beside the revisions of a record. @throws UsageError
void require_outside_records(const std::filesystem::path& place);

/// The same for the catalogue's index, which may lie beside the revisions of a record under its usual name. @throws UsageError
void require_index_place(const std::filesystem::path& index);

/// Writes an output, or standard output for "-": whole or not at all. @throws UsageError as require_output, files::OutputFailed
void write_output(const std::string& output, std::string_view bytes, const FilesRead& read);

/// Shows what was done for an output: on standard output, or on standard error where the output itself goes there.
void show_account(const std::string& output, const std::string& account);

/// Refuses to write pages to a terminal. @throws UsageError
void require_no_terminal(const std::string& output, const Console& console);

}  // namespace wayfolio::commands
