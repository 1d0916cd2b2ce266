#include "batch/ledger.hpp"

#include "files/unfinished.hpp"
#include "input/read_file.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <string_view>
#include <system_error>
#include <unordered_map>

namespace wayfolio::batch {
namespace {

namespace fs = std::filesystem;

/// Hands on each line of a file, without its end, and where it begins.
template <typename Take>
void for_each_line(const fs::path& file, Take take) {
    std::string rest;
    std::uint64_t offset = 0;
    input::read_in_pieces(file, [&](std::string_view piece) {
        rest += piece;
        std::size_t at = 0;
        for (std::size_t end = rest.find('\n'); end != rest.npos; end = rest.find('\n', at)) {
            take(std::string_view(rest).substr(at, end - at), offset + at);
            at = end + 1;
        }
        rest.erase(0, at);
        offset += at;
    });
    take(rest, offset);
}

}  // namespace

std::uint32_t Ledger::number_of(const fs::path& file) {
    const auto found = std::ranges::find(files_, file);
    if (found != files_.end()) return static_cast<std::uint32_t>(found - files_.begin());
    files_.push_back(file);
    return static_cast<std::uint32_t>(files_.size() - 1);
}

void Ledger::read(const fs::path& file) {
    std::error_code none;
    if (!fs::is_regular_file(file, none)) return;
    std::unordered_map<std::string_view, std::size_t> order;
    for (std::size_t i = 0; i < jobs_.size(); ++i) order.emplace(jobs_[i]->name, i);
    for_each_line(file, [&](std::string_view line, std::uint64_t offset) {
        const std::optional<Outcome> outcome = from_line(line);
        if (!outcome) return;
        if (const auto job = order.find(outcome->name); job != order.end()) note(job->second, file, offset, line.size());
    });
}

void Ledger::note(std::size_t job, const fs::path& file, std::uint64_t offset, std::size_t length) {
    const std::lock_guard lock(one_at_a_time_);
    lines_[job] = {offset, static_cast<std::uint32_t>(length), number_of(file)};
}

std::optional<std::string> Ledger::line_of(std::size_t job) const {
    Lying lying;
    fs::path path;
    {
        const std::lock_guard lock(one_at_a_time_);
        lying = lines_[job];
        if (lying.length == 0) return std::nullopt;
        path = files_[lying.file];
    }
    std::ifstream file(path, std::ios::binary);
    std::string line(lying.length, '\0');
    file.seekg(static_cast<std::streamoff>(lying.offset));
    file.read(line.data(), static_cast<std::streamsize>(line.size()));
    if (!file) return std::nullopt;
    return line;
}

std::optional<Outcome> Ledger::outcome_of(std::size_t job) const {
    const std::optional<std::string> line = line_of(job);
    return line ? from_line(*line) : std::nullopt;
}

void Ledger::write_all(const fs::path& file) const {
    files::Unfinished making(file, files::Unfinished::Kind::File);
    std::ofstream out(making.path(), std::ios::binary);
    for (std::size_t job = 0; job < jobs_.size(); ++job) {
        const std::optional<std::string> line = line_of(job);
        if (!line)
            throw files::OutputFailed(file.string(), "what became of " + jobs_[job]->name + " is no longer there",
                                       /*cannot_create=*/false);
        out << *line << '\n';
    }
    out.close();
    if (!out) throw files::OutputFailed(file.string(), std::strerror(errno), /*cannot_create=*/false);
    making.move_into_place();
}

}  // namespace wayfolio::batch
