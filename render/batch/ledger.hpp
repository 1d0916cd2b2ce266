#pragma once
#include "batch/job.hpp"
#include "batch/outcome.hpp"

#include <cstdint>
#include <filesystem>
#include <mutex>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace wayfolio::batch {

/// Where the outcomes of jobs lie in files of JSON Lines. In memory is their place alone: a batch needs as much after ten thousand jobs as
/// after a hundred. For any thread.
class Ledger {
public:
    /// Of these jobs, by their order; they must outlive it. Nothing is known of them yet.
    explicit Ledger(std::span<const Job* const> jobs) : jobs_(jobs), lines_(jobs.size()) {}

    /// Takes in the lines of a file; a later line of a job takes the place of an earlier one. A file that is not there has none; a line
    /// that was cut off, or is of another job, is passed over.
    void read(const std::filesystem::path& file);

    /// A line was written: of the job in that order, `length` bytes at `offset` of a file.
    void note(std::size_t job, const std::filesystem::path& file, std::uint64_t offset, std::size_t length);

    /// The last line of a job, without its end. Nothing where there is none, or its file is no longer there.
    [[nodiscard]] std::optional<std::string> line_of(std::size_t job) const;
    [[nodiscard]] std::optional<Outcome> outcome_of(std::size_t job) const;

    /// The lines of all jobs in their order, whole or not at all. @throws files::OutputFailed, also where one is missing
    void write_all(const std::filesystem::path& file) const;

private:
    struct Lying {
        std::uint64_t offset = 0;
        std::uint32_t length = 0;  ///< 0: there is none
        std::uint32_t file = 0;
    };
    std::uint32_t number_of(const std::filesystem::path& file);

    std::span<const Job* const> jobs_;
    std::vector<Lying> lines_;
    std::vector<std::filesystem::path> files_;
    mutable std::mutex one_at_a_time_;
};

}  // namespace wayfolio::batch
