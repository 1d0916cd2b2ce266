#pragma once
#include <cstddef>
#include <filesystem>
#include <functional>
#include <span>
#include <string>
#include <string_view>

namespace wayfolio::input {

/// Bytes that are read a piece at a time, from any place and as often as asked for, so that what is held does not grow with them.
struct ByteSource {
    std::size_t size = 0;
    /// Fills `into` from `place` on; several threads may ask at once. @returns how many bytes there were
    /// @throws InputMissing when they cannot be read, or are not those that were there when the source was opened
    std::function<std::size_t(std::size_t place, std::span<char> into)> read_at;
};

/// The bytes of a text, which the source owns.
ByteSource source_of(std::string bytes);

/// The file `name` in `folder`, which stays open. @throws InputMissing as read_file_beside()
ByteSource source_beside(const std::filesystem::path& folder, const std::string& name);

/// A regular file. @throws InputMissing as read_regular_file()
ByteSource source_of_file(const std::filesystem::path& path);

/// Hands on all bytes, piece by piece.
void read_in_pieces(const ByteSource& source, const std::function<void(std::string_view)>& take);

}  // namespace wayfolio::input
