#pragma once
#include "batch/ledger.hpp"
#include "batch/shard.hpp"

#include <filesystem>
#include <mutex>

namespace wayfolio::batch {

/// Names of the results of a shard: "results.jsonl", "results-3-of-8.jsonl".
std::string results_name(const Shard& shard);

/// Takes in what the results of a shard say, and after them its journal; of a killed run too.
void read_outcomes(Ledger& ledger, const std::filesystem::path& folder, const Shard& shard);

/// Where outcomes are kept while a shard is at work, each as soon as it is there: a hidden file in its folder, which goes when the
/// results are written. @throws files::OutputFailed, also while another run is at work on the same shard
class Journal {
public:
    Journal(const std::filesystem::path& folder, const Shard& shard);
    ~Journal();
    Journal(const Journal&) = delete;
    Journal& operator=(const Journal&) = delete;

    /// By any thread: of the job in that order. The ledger knows the new line for the old one then.
    void add(std::size_t job, const Outcome& outcome, Ledger& ledger);

    /// The results of the whole shard in their order, whole or not at all; then the journal is empty.
    /// @throws files::OutputFailed
    void finish(const Ledger& ledger);

private:
    std::filesystem::path folder_, file_;
    Shard shard_;
    int descriptor_ = -1;
    std::uint64_t length_ = 0;
    std::mutex one_at_a_time_;
};

}  // namespace wayfolio::batch
