#include "batch/run.hpp"

#include "batch/journal.hpp"
#include "batch/ledger.hpp"
#include "files/unfinished.hpp"
#include "text/signal_stack.hpp"

#include <atomic>
#include <exception>
#include <mutex>
#include <optional>
#include <thread>
#include <unordered_set>

namespace wayfolio::batch {
namespace {

namespace fs = std::filesystem;

/// What the workers share.
struct Work {
    const std::vector<const Job*>& jobs;  ///< of this shard, in their order
    Ledger& ledger;
    const Settings& settings;
    const std::function<bool()>& stop;
    const std::function<void(const Progress&)>& told;
    Journal* journal = nullptr;  ///< none where it is only planned
    std::atomic<std::size_t> next = 0;
    std::atomic<bool> stopped = false;
    std::mutex one_at_a_time{};
    std::size_t done = 0;
    Summary summary{};
    std::exception_ptr thrown{};
};

void note(Work& work, const Did& did) {
    const std::lock_guard lock(work.one_at_a_time);
    Summary& sum = work.summary;
    ++(did.outcome.state == State::Faulty   ? sum.faulty
       : did.outcome.state == State::Failed ? sum.failed
       : did.why.empty()                    ? sum.unchanged
                                            : sum.drawn);
    work.told({did, ++work.done, work.jobs.size()});
}

void do_jobs(Work& work) {
    const text::SignalStack room;
    const text::Shaper shaper(work.settings.fonts, text::Threads::One);
    for (std::size_t place = work.next++; place < work.jobs.size(); place = work.next++) {
        if (work.stopped || work.stop()) {
            work.stopped = true;
            return;
        }
        const std::optional<Outcome> before = work.ledger.outcome_of(place);
        const Did did = do_job(*work.jobs[place], {shaper, work.settings.into, before ? &*before : nullptr, work.settings.only_plan});
        shaper.let_go_of_old_lines();
        if (work.journal != nullptr) work.journal->add(place, did.outcome, work.ledger);
        note(work, did);
    }
}

void do_jobs_or_keep_why(Work& work) {
    try {
        do_jobs(work);
    } catch (...) {  // of a thread nobody else catches anything
        const std::lock_guard lock(work.one_at_a_time);
        work.stopped = true;
        if (!work.thrown) work.thrown = std::current_exception();
    }
}

void require_folder(const fs::path& folder) {
    std::error_code error;
    fs::create_directories(folder, error);
    if (error || !fs::is_directory(folder))
        throw files::OutputFailed(folder.string(), error ? error.message() : "is no folder", /*cannot_create=*/true);
}

void remove_left_over(const std::vector<const Job*>& jobs, const fs::path& folder) {
    std::unordered_set<std::string> files;
    for (const Job* job : jobs)
        for (std::string& file : files_of(*job)) files.insert(std::move(file));
    files::remove_left_over(folder, [&](const std::string& target) { return files.contains(target); });
}

}  // namespace

Summary run(const std::vector<Job>& jobs, const Settings& settings, const std::function<bool()>& stop,
            const std::function<void(const Progress&)>& told) {
    if (!settings.only_plan) require_folder(settings.into);
    std::optional<Journal> journal;
    if (!settings.only_plan) journal.emplace(settings.into, settings.shard);
    std::vector<const Job*> mine;
    for (const Job& job : jobs)
        if (belongs(job.name, settings.shard)) mine.push_back(&job);
    if (!settings.only_plan) remove_left_over(mine, settings.into);
    Ledger ledger(mine);
    read_outcomes(ledger, settings.into, settings.shard);
    Work work{.jobs = mine, .ledger = ledger, .settings = settings, .stop = stop, .told = told};
    work.journal = journal ? &*journal : nullptr;
    {
        std::vector<std::jthread> workers;
        for (std::size_t i = 1; i < std::min(settings.workers, work.jobs.size()); ++i)
            workers.emplace_back([&] { do_jobs_or_keep_why(work); });
        do_jobs_or_keep_why(work);
    }
    if (work.thrown) std::rethrow_exception(work.thrown);
    work.summary.stopped = work.done < work.jobs.size();
    if (journal && !work.summary.stopped) journal->finish(ledger);
    return work.summary;
}

}  // namespace wayfolio::batch
