#pragma once
#include "batch/job.hpp"

#include <string>
#include <vector>

namespace wayfolio::batch {

struct Merged {
    std::string results;             ///< of all jobs, in their order: as one run would have written them
    std::vector<std::string> holes;  ///< shards and jobs of which there are none, each in one line
    std::size_t faulty = 0, failed = 0;
};

/// Joins the results of all shards in a folder.
Merged merge(const std::vector<Job>& jobs, const std::filesystem::path& folder);

}  // namespace wayfolio::batch
