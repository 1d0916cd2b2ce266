#pragma once
#include "batch/job.hpp"
#include "batch/outcome.hpp"
#include "database/database.hpp"

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace wayfolio::service {

/// A batch that came, with all that its jobs are drawn from.
struct PostedBatch {
    std::string name;  ///< of what it holds: the same again is the same batch
    std::vector<batch::Job> jobs;
    std::map<std::string, std::string> files;
};

/// How far a batch is.
struct BatchCounts {
    std::string name;
    std::size_t jobs = 0, waiting = 0, at_work = 0, done = 0, faulty = 0, failed = 0, cancelled = 0;
    [[nodiscard]] std::size_t ended() const { return done + faulty + failed; }
};

/// A job that somebody has taken, with all the files of its batch at hand.
struct TakenJob {
    std::int64_t batch = 0, place = 0;
    batch::Job job;  ///< `from` and `layout` are names of files of the batch; or `layout` that of a shipped one
};

/// What became of jobs so far.
struct Outcomes {
    std::vector<std::pair<std::int64_t, std::string>> lines;  ///< each with the number of the job's end, from 1
    bool all = false;                                          ///< nothing more will come
};

/// Batches, their jobs and results, in one file of SQLite: what was said to be there outlives a kill. Every process opens it for itself.
class Desk {
public:
    /// Makes it where there is none. @throws files::OutputFailed where it cannot be had, or the file is none of ours
    explicit Desk(const std::filesystem::path& file);

    /// Jobs that were at work when the service ended wait again: that is nothing they did, for they are drawn in other processes.
    void begin_again();

    enum class Taken { New, GoesOn, WasThere };
    /// All of it or nothing. The same batch again is there already; where it was cancelled, it goes on. Nothing where so many jobs would
    /// wait.
    std::optional<Taken> take_in(const PostedBatch& posted, std::size_t most_waiting);

    std::vector<BatchCounts> batches();
    std::optional<BatchCounts> counts(const std::string& batch);
    /// In the order of the manifest.
    std::vector<std::string> results(const std::string& batch);
    /// In the order in which they ended, after so many.
    Outcomes ended_after(const std::string& batch, std::int64_t number);
    std::optional<std::string> result(const std::string& batch, const std::string& file);

    /// What waits is not done any more. False where there is no such batch.
    bool cancel(const std::string& batch);
    /// The batch and all of its results are gone. False where there is none.
    bool forget(const std::string& batch);

    /// The next job, for whoever calls itself `claim`; nothing where none waits.
    std::optional<TakenJob> take(const std::string& claim);
    std::optional<std::string> file_of(const TakenJob& taken, const std::string& name);
    void finish(const std::string& claim, const batch::Outcome& outcome, const std::map<std::string, std::string>& files);
    /// Whoever had it is no more. It waits again, or has failed for that reason. False where that claim has no job at work.
    bool give_up(const std::string& claim, const std::string& reason, bool again);

private:
    std::optional<std::int64_t> number_of(const std::string& batch);
    void end_job(const TakenJob& taken, const batch::Outcome& outcome);
    std::optional<std::pair<TakenJob, std::int64_t>> taken_by(const std::string& claim);

    database::Database database_;
};

}  // namespace wayfolio::service
