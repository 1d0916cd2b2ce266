#include "output/output.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <utility>

namespace wayfolio::output {

namespace {

/// A file descriptor that closes itself, and a temporary file that goes away unless it was moved into place.
class NewFile {
public:
    NewFile(const std::filesystem::path& target, mode_t mode) {
        // A killed process may have left a file of the same name: take the next one.
        for (int attempt = 0; attempt < most_attempts; ++attempt) {
            path_ = target.string() + ".part-" + std::to_string(getpid()) + "-" + std::to_string(attempt);
            descriptor_ = open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode);
            if (descriptor_ >= 0 || errno != EEXIST) break;
        }
        created_ = descriptor_ >= 0;
    }
    ~NewFile() {
        if (descriptor_ >= 0) close(descriptor_);
        if (created_ && !moved_) unlink(path_.c_str());
    }
    NewFile(const NewFile&) = delete;
    NewFile& operator=(const NewFile&) = delete;

    [[nodiscard]] bool is_open() const { return descriptor_ >= 0; }
    [[nodiscard]] int descriptor() const { return descriptor_; }
    [[nodiscard]] bool flush_and_close() {
        const bool flushed = fsync(descriptor_) == 0;
        return close(std::exchange(descriptor_, -1)) == 0 && flushed;
    }
    [[nodiscard]] bool move_to(const std::filesystem::path& target) {
        moved_ = rename(path_.c_str(), target.c_str()) == 0;
        return moved_;
    }

private:
    static constexpr int most_attempts = 100;
    std::string path_;
    int descriptor_ = -1;
    bool created_ = false, moved_ = false;
};

std::string reason() { return std::strerror(errno); }

bool write_all(int descriptor, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t written = write(descriptor, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) continue;
        if (written <= 0) return false;
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return true;
}

void write_stream(int descriptor, const std::string& name, std::string_view bytes) {
    if (!write_all(descriptor, bytes)) throw OutputFailed(name, reason(), /*cannot_create=*/false);
}

/// Devices and pipes cannot be replaced by a rename.
void write_device(const std::filesystem::path& path, std::string_view bytes) {
    const int descriptor = open(path.c_str(), O_WRONLY | O_CLOEXEC);
    if (descriptor < 0) throw OutputFailed(path, reason(), /*cannot_create=*/true);
    const bool written = write_all(descriptor, bytes);
    const int error = errno;
    const bool closed = close(descriptor) == 0;
    if (!written) errno = error;
    if (!written || !closed) throw OutputFailed(path, reason(), /*cannot_create=*/false);
}

void flush_folder(const std::filesystem::path& folder) {
    const int descriptor = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (descriptor < 0) return;  // a folder that may be written but not read: the file itself is safe
    fsync(descriptor);
    close(descriptor);
}

}  // namespace

void write_file(const std::filesystem::path& path, std::string_view bytes) {
    if (path == "-") return write_stream(STDOUT_FILENO, "standard output", bytes);
    struct stat there {};
    const bool exists = stat(path.c_str(), &there) == 0;
    if (exists && S_ISDIR(there.st_mode)) throw OutputFailed(path, "is a folder; name a file in it", /*cannot_create=*/true);
    if (exists && !S_ISREG(there.st_mode)) return write_device(path, bytes);
    if (exists && access(path.c_str(), W_OK) != 0) throw OutputFailed(path, reason(), /*cannot_create=*/true);
    // A link to a file stays a link: what it points to is replaced.
    const std::filesystem::path target = exists ? std::filesystem::canonical(path) : path;
    NewFile file(target, 0666);
    if (!file.is_open()) throw OutputFailed(path, errno == ENOENT ? "its folder does not exist; make it first, or name another" : reason(), /*cannot_create=*/true);
    if (exists && fchmod(file.descriptor(), there.st_mode & 07777) != 0)
        throw OutputFailed(path, reason(), /*cannot_create=*/false);
    if (!write_all(file.descriptor(), bytes) || !file.flush_and_close() || !file.move_to(target))
        throw OutputFailed(path, reason(), /*cannot_create=*/false);
    flush_folder(target.has_parent_path() ? target.parent_path() : ".");
}

}  // namespace wayfolio::output
