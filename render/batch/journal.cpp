#include "batch/journal.hpp"

#include "input/read_file.hpp"
#include "output/output.hpp"

#include <fmt/format.h>

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

namespace wayfolio::batch {
namespace {

namespace fs = std::filesystem;
using output::OutputFailed;

fs::path journal_in(const fs::path& folder, const Shard& shard) { return folder / ("." + results_name(shard) + "-journal"); }

/// The last line may have been cut off.
void read_lines(const fs::path& file, std::map<std::string, Outcome>& known) {
    std::error_code none;
    if (!fs::is_regular_file(file, none)) return;
    const std::string bytes = input::read_regular_file(file);
    for (std::size_t at = 0; at < bytes.size();) {
        const std::size_t end = std::min(bytes.find('\n', at), bytes.size());
        if (auto outcome = from_line(std::string_view(bytes).substr(at, end - at))) known[outcome->name] = std::move(*outcome);
        at = end + 1;
    }
}

}  // namespace

std::string results_name(const Shard& shard) {
    return shard.whole() ? "results.jsonl" : fmt::format("results-{}-of-{}.jsonl", shard.index, shard.count);
}

std::map<std::string, Outcome> known_outcomes(const fs::path& folder, const Shard& shard) {
    std::map<std::string, Outcome> known;
    read_lines(folder / results_name(shard), known);
    read_lines(journal_in(folder, shard), known);
    return known;
}

Journal::Journal(const fs::path& folder, const Shard& shard) : folder_(folder), file_(journal_in(folder, shard)), shard_(shard) {
    constexpr int owner_and_readers = 0644;
    descriptor_ = ::open(file_.c_str(), O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC | O_NOFOLLOW, owner_and_readers);
    if (descriptor_ < 0) throw OutputFailed(file_.string(), std::strerror(errno), /*cannot_create=*/true);
    if (::flock(descriptor_, LOCK_EX | LOCK_NB) == 0) return;
    ::close(descriptor_);
    throw OutputFailed(folder_.string(), "another run is at work on the same jobs", /*cannot_create=*/true);
}

Journal::~Journal() { ::close(descriptor_); }

void Journal::add(const Outcome& outcome) {
    const std::string line = "\n" + to_line(outcome) + "\n";  // the one before may have been cut off
    const std::lock_guard lock(one_at_a_time_);
    if (::write(descriptor_, line.data(), line.size()) != static_cast<ssize_t>(line.size()))
        throw OutputFailed(file_.string(), std::strerror(errno), /*cannot_create=*/false);
}

void Journal::finish(const std::string& results) {
    output::write_file(folder_ / results_name(shard_), results);
    std::error_code none;
    fs::remove(file_, none);
}

}  // namespace wayfolio::batch
