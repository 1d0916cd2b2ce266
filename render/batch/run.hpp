#pragma once
#include "batch/do_job.hpp"
#include "batch/shard.hpp"

#include <functional>
#include <vector>

namespace wayfolio::batch {

struct Settings {
    std::filesystem::path into, fonts;  ///< folders; `into` is made where it is missing
    std::size_t workers = 1;
    Shard shard{};
    bool only_plan = false;
};

struct Progress {
    const Did& did;
    std::size_t done = 0, of = 0;
};

struct Summary {
    std::size_t drawn = 0, unchanged = 0, faulty = 0, failed = 0;
    bool stopped = false;  ///< before all was done; what is done need not be done again
};

/// Does those of the jobs that belong to the shard. A job that goes wrong harms no other; each result is there whole or not at all.
/// @param stop asked before each job, by any thread
/// @param told called after each job, by one thread at a time, in the order in which they end
/// @throws files::OutputFailed where not even results can be written; whatever is a fault of this program
Summary run(const std::vector<Job>& jobs, const Settings& settings, const std::function<bool()>& stop,
            const std::function<void(const Progress&)>& told);

}  // namespace wayfolio::batch
