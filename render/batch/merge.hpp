#pragma once
#include "batch/job.hpp"

#include <string>
#include <vector>

namespace wayfolio::batch {

struct Merged {
    std::vector<std::string> holes;  ///< shards and jobs of which there are none, each in one line
    std::size_t faulty = 0, failed = 0;
};

/// Joins the results of all shards in a folder to those that one run would have written, where there are no holes.
/// @throws files::OutputFailed
Merged merge(const std::vector<Job>& jobs, const std::filesystem::path& folder);

}  // namespace wayfolio::batch
