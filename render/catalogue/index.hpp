#pragma once
#include "database/database.hpp"

#include <filesystem>
#include <string>
#include <vector>

/// The index is a cache: it may be thrown away at any time and is made again from the records.
namespace wayfolio::catalogue {

/// Where the index lies where nobody says otherwise.
std::filesystem::path index_in(const std::filesystem::path& root);

struct Indexed {
    std::size_t read = 0, unchanged = 0, gone = 0;
    std::string rebuilt;                ///< why the index that was there could not be used; empty where it could
    std::vector<std::string> problems;  ///< damaged records and folders that cannot be read, each in one line
};

/// Brings the index up to the records below `root`, in one transaction: a run that is killed leaves the index as it was.
/// An index that is damaged or of another version is built anew beside it and moved into its place.
/// @throws input::InputMissing when `root` is no folder; files::OutputFailed when the index cannot be written, or `index` is a
/// file that is no index of ours
Indexed update_index(const std::filesystem::path& root, const std::filesystem::path& index);

/// The index as it stands, to be asked.
/// @throws input::InputMissing when there is none, or it is damaged or of another version
database::Database open_index(const std::filesystem::path& index);

}  // namespace wayfolio::catalogue
