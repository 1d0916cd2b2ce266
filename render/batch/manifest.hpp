#pragma once
#include "batch/job.hpp"

#include <string_view>
#include <vector>

namespace wayfolio::batch {

/// JSON Lines, a job a line: {"document": "a.json", "name": "a", "layout": "report", "paper": "A4", "outputs": ["report", "evaluation"]};
/// all but "document" may be absent, empty lines are passed over. Layout and paper of a job without them are those of `standard`.
/// @param folder what paths are relative to
/// @throws input::InputRejected with the faults of all lines, a name twice among them
std::vector<Job> read_manifest(std::string_view bytes, const std::string& file, const std::filesystem::path& folder, const Job& standard);

/// Every .json file of a folder, by name. @throws input::InputMissing
std::vector<Job> jobs_of_folder(const std::filesystem::path& folder, const Job& standard);

/// The newest revision of every record below a folder; named by the folder of the record. @throws input::InputMissing
std::vector<Job> jobs_of_records(const std::filesystem::path& folder, const Job& standard);

}  // namespace wayfolio::batch
