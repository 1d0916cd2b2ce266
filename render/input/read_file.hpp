#pragma once
#include <cstddef>
#include <filesystem>
#include <functional>
#include <string>
#include <string_view>

namespace wayfolio::input {

/// More bytes than this are refused before they are looked at.
inline constexpr std::size_t largest_file = std::size_t{64} << 20;

/// The bytes of a file, or of standard input for "-". At most largest_file + 1 bytes are read, so that the reader of the content
/// can refuse what is too long.
/// @throws InputMissing when it is not there, is a folder or cannot be read
std::string read_file(const std::filesystem::path& path);

/// The same of a file that nobody named by hand, such as one in a record: a pipe or device there would keep the program waiting for ever.
/// @throws InputMissing also when it is no regular file
std::string read_regular_file(const std::filesystem::path& path);

/// Hands on the bytes of a regular file of any size, piece by piece. @throws InputMissing as read_regular_file
void read_in_pieces(const std::filesystem::path& path, const std::function<void(std::string_view)>& take);

/// @throws InputMissing when what is in a folder cannot be seen
void require_readable_folder(const std::filesystem::path& folder);

/// Whether `name` can only mean a file in the folder it is looked up in: no separators, not "." or "..", no control characters.
bool is_plain_file_name(std::string_view name);

/// Where the file `name` in `folder` lies.
/// @throws InputMissing when `name` is not a plain name, a link leads out of the folder, or there is no such file
std::filesystem::path path_beside(const std::filesystem::path& folder, const std::string& name);

/// The bytes of that file. @throws InputMissing also when it cannot be read
std::string read_file_beside(const std::filesystem::path& folder, const std::string& name);

}  // namespace wayfolio::input
