#pragma once
#include <cstddef>
#include <filesystem>
#include <string>

namespace wayfolio::input {

/// More bytes than this are refused before they are looked at.
inline constexpr std::size_t largest_file = std::size_t{64} << 20;

/// The bytes of a file, or of standard input for "-". At most largest_file + 1 bytes are read, so that the reader of the content
/// can refuse what is too long.
/// @throws InputMissing when it is not there, is a folder or cannot be read
std::string read_file(const std::filesystem::path& path);

/// Whether `name` can only mean a file in the folder it is looked up in: no separators, not "." or "..", no control characters.
bool is_plain_file_name(std::string_view name);

/// The bytes of the file `name` in `folder`.
/// @throws InputMissing when `name` is not a plain name, a link leads out of the folder, or the file cannot be read
std::string read_file_beside(const std::filesystem::path& folder, const std::string& name);

}  // namespace wayfolio::input
