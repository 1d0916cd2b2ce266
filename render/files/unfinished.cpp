#include "files/unfinished.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <functional>

namespace wayfolio::files {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view part = ".part-";

/// Makes an empty file or folder that was not there; false, with errno, otherwise.
bool make(const fs::path& path, Unfinished::Kind kind) {
    if (kind == Unfinished::Kind::Folder) return mkdir(path.c_str(), 0777) == 0;
    const int descriptor = open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    return descriptor >= 0 && close(descriptor) == 0;
}

/// Locks a file or folder that is being made; -1 where another holds it, or it cannot be.
int locked(const fs::path& path, int how) {
    const int descriptor = open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);
    if (descriptor < 0) return -1;
    struct stat held {}, there {};
    // Whoever locks it may find that it was removed, or put in the place of another, in the meantime.
    if (flock(descriptor, how) == 0 && fstat(descriptor, &held) == 0 && lstat(path.c_str(), &there) == 0 && held.st_dev == there.st_dev &&
        held.st_ino == there.st_ino)
        return descriptor;
    close(descriptor);
    return -1;
}

/// The target of a name that is of our own making, ".NAME.part-PROCESS-N"; "" for any other.
std::string target_of(std::string_view name) {
    const std::size_t at = name.rfind(part);
    if (!name.starts_with('.') || at == std::string_view::npos || at < 2) return {};
    const std::string_view rest = name.substr(at + part.size());
    const std::size_t dash = rest.find('-');
    const auto is_number = [](std::string_view text) { return !text.empty() && text.find_first_not_of("0123456789") == text.npos; };
    const bool ours = dash != std::string_view::npos && is_number(rest.substr(0, dash)) && is_number(rest.substr(dash + 1));
    return ours ? std::string(name.substr(1, at - 1)) : std::string();
}

/// Opens a file or folder and brings it to the disk; false, with errno, where that fails.
bool flush(const fs::path& path, const std::function<int(int)>& how) {
    const int descriptor = open(path.c_str(), O_RDONLY | O_CLOEXEC);
    if (descriptor < 0) return false;
    const bool flushed = how(descriptor) == 0;
    const int error = errno;
    close(descriptor);
    errno = error;
    return flushed;
}

/// Whether it is on the disk with the permissions of the file that it replaces.
bool made_ready(const fs::path& path, const fs::path& target, Unfinished::Kind kind) {
    if (kind == Unfinished::Kind::Folder) return flush(path, syncfs);  // what lies below too
    struct stat there {};
    const bool replaces = stat(target.c_str(), &there) == 0;
    return flush(path, fsync) && (!replaces || chmod(path.c_str(), there.st_mode & 07777) == 0);
}

}  // namespace

void remove_left_over(const fs::path& folder, const std::function<bool(const std::string& target)>& is_one) {
    std::error_code none;
    for (const auto& entry : fs::directory_iterator(folder, none)) {
        const std::string target = target_of(entry.path().filename().string());
        if (target.empty() || !is_one(target)) continue;
        if (const int lock = locked(entry.path(), LOCK_EX | LOCK_NB); lock >= 0) {
            std::error_code ignored;
            fs::remove_all(entry.path(), ignored);
            close(lock);
        }
    }
}

Unfinished::Unfinished(fs::path target, Kind kind, LeftOver left_over) : target_(std::move(target)), kind_(kind) {
    if (left_over == LeftOver::Sought)
        remove_left_over(target_.has_parent_path() ? target_.parent_path() : fs::path("."),
                         [own = target_.filename().string()](const std::string& name) { return name == own; });
    // Another process of the same number, on another machine, may be making something of the same name: take the next one.
    constexpr int most_attempts = 100;
    for (int attempt = 0; attempt < most_attempts; ++attempt) {
        fs::path candidate = target_;
        candidate.replace_filename("." + target_.filename().string() + std::string(part) + std::to_string(getpid()) + "-" +
                                   std::to_string(attempt));
        if (make(candidate, kind)) {
            lock_ = locked(candidate, LOCK_EX);
            std::error_code none;
            if (lock_ < 0 && !fs::exists(candidate, none)) continue;  // taken for something left over, just before it was locked
            path_ = std::move(candidate);
            return;
        }
        if (errno != EEXIST) break;
    }
    throw OutputFailed(target_, errno == ENOENT ? "its folder does not exist; make it first, or name another" : std::strerror(errno),
                       /*cannot_create=*/true);
}

Unfinished::~Unfinished() {
    std::error_code ignored;
    if (!path_.empty()) fs::remove_all(path_, ignored);
    if (lock_ >= 0) close(lock_);
}

void Unfinished::move_into_place() {
    if (!made_ready(path_, target_, kind_)) throw OutputFailed(target_, std::strerror(errno), /*cannot_create=*/false);
    if (rename(path_.c_str(), target_.c_str()) != 0)
        throw OutputFailed(target_, std::strerror(errno), /*cannot_create=*/kind_ == Kind::Folder);
    path_.clear();
    // A folder that may be written but not read cannot be flushed: what was moved is safe itself.
    flush(target_.has_parent_path() ? target_.parent_path() : ".", fsync);
}

std::optional<std::string> unfinished_target(std::string_view name) {
    const std::size_t end = name.rfind(part);
    if (!name.starts_with('.') || end == std::string_view::npos || end < 2) return std::nullopt;
    return std::string(name.substr(1, end - 1));
}

}  // namespace wayfolio::files
