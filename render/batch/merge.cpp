#include "batch/merge.hpp"

#include "batch/journal.hpp"

#include <fmt/format.h>

#include <charconv>
#include <set>

namespace wayfolio::batch {
namespace {

namespace fs = std::filesystem;

/// The shards that a folder has results or a journal of. "results-3-of-8.jsonl", ".results-3-of-8.jsonl-journal"
std::set<std::size_t> counts_in(const fs::path& folder) {
    constexpr std::string_view mark = "-of-";
    std::set<std::size_t> counts;
    std::error_code none;
    for (const auto& entry : fs::directory_iterator(folder, none)) {
        const std::string name = entry.path().filename().string();
        const std::size_t of = name.find(mark);
        if (name.find("results-") > 1 || of == name.npos) continue;
        std::size_t count = 0;
        std::from_chars(name.data() + of + mark.size(), name.data() + name.size(), count);
        if (count > 1) counts.insert(count);
    }
    return counts;
}

}  // namespace

Merged merge(const std::vector<Job>& jobs, const fs::path& folder) {
    constexpr std::size_t most_named = 20;
    Merged merged;
    std::vector<const Job*> all;
    for (const Job& job : jobs) all.push_back(&job);
    Ledger ledger(all);
    for (const std::size_t count : counts_in(folder))
        for (std::size_t index = 0; index < count; ++index) {
            const Shard shard{index, count};
            std::error_code none;
            if (!fs::exists(folder / results_name(shard), none))
                merged.holes.push_back(fmt::format("shard {} of {} has not ended", index, count));
            read_outcomes(ledger, folder, shard);
        }
    std::size_t missing = 0;
    for (std::size_t job = 0; job < all.size(); ++job) {
        const std::optional<Outcome> outcome = ledger.outcome_of(job);
        if (!outcome && ++missing <= most_named) merged.holes.push_back(all[job]->name + ": no shard has done it");
        merged.faulty += outcome && outcome->state == State::Faulty ? 1 : 0;
        merged.failed += outcome && outcome->state == State::Failed ? 1 : 0;
    }
    if (missing > most_named) merged.holes.push_back(fmt::format("and {} more jobs", missing - most_named));
    if (merged.holes.empty()) ledger.write_all(folder / results_name({}));
    return merged;
}

}  // namespace wayfolio::batch
