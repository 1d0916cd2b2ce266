#include "batch/journal.hpp"
#include "files/output_failed.hpp"


#include <fmt/format.h>

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

namespace wayfolio::batch {
namespace {

namespace fs = std::filesystem;
using files::OutputFailed;

fs::path journal_in(const fs::path& folder, const Shard& shard) { return folder / ("." + results_name(shard) + "-journal"); }

}  // namespace

std::string results_name(const Shard& shard) {
    return shard.whole() ? "results.jsonl" : fmt::format("results-{}-of-{}.jsonl", shard.index, shard.count);
}

void read_outcomes(Ledger& ledger, const fs::path& folder, const Shard& shard) {
    ledger.read(folder / results_name(shard));
    ledger.read(journal_in(folder, shard));
}

Journal::Journal(const fs::path& folder, const Shard& shard) : folder_(folder), file_(journal_in(folder, shard)), shard_(shard) {
    constexpr int owner_and_readers = 0644;
    descriptor_ = ::open(file_.c_str(), O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC | O_NOFOLLOW, owner_and_readers);
    if (descriptor_ < 0) throw OutputFailed(file_.string(), std::strerror(errno), /*cannot_create=*/true);
    if (::flock(descriptor_, LOCK_EX | LOCK_NB) == 0) {
        length_ = static_cast<std::uint64_t>(::lseek(descriptor_, 0, SEEK_END));
        return;
    }
    ::close(descriptor_);
    throw OutputFailed(folder_.string(), "another run is at work on the same jobs", /*cannot_create=*/true);
}

Journal::~Journal() { ::close(descriptor_); }

void Journal::add(std::size_t job, const Outcome& outcome, Ledger& ledger) {
    const std::string line = to_line(outcome);
    const std::string written = "\n" + line + "\n";  // the one before may have been cut off
    const std::lock_guard lock(one_at_a_time_);
    if (::write(descriptor_, written.data(), written.size()) != static_cast<ssize_t>(written.size()))
        throw OutputFailed(file_.string(), std::strerror(errno), /*cannot_create=*/false);
    ledger.note(job, file_, length_ + 1, line.size());
    length_ += written.size();
}

void Journal::finish(const Ledger& ledger) {
    ledger.write_all(folder_ / results_name(shard_));
    std::error_code none;
    fs::remove(file_, none);
}

}  // namespace wayfolio::batch
