#pragma once
#include "batch/outcome.hpp"
#include "batch/shard.hpp"

#include <filesystem>
#include <map>
#include <mutex>

namespace wayfolio::batch {

/// Names of the results of a shard: "results.jsonl", "results-3-of-8.jsonl".
std::string results_name(const Shard& shard);

/// What became of each job, by name, as the results of a shard say it, and after them its journal; of a killed run too.
std::map<std::string, Outcome> known_outcomes(const std::filesystem::path& folder, const Shard& shard);

/// Where outcomes are kept while a shard is at work, each as soon as it is there: a hidden file in its folder, which goes when the
/// results are written. @throws output::OutputFailed, also while another run is at work on the same shard
class Journal {
public:
    Journal(const std::filesystem::path& folder, const Shard& shard);
    ~Journal();
    Journal(const Journal&) = delete;
    Journal& operator=(const Journal&) = delete;

    /// By any thread.
    void add(const Outcome& outcome);

    /// The results of the whole shard in their order, whole or not at all; then the journal is empty.
    void finish(const std::string& results);

private:
    std::filesystem::path folder_, file_;
    Shard shard_;
    int descriptor_ = -1;
    std::mutex one_at_a_time_;
};

}  // namespace wayfolio::batch
