#include "files/write_file.hpp"
#include "files/unfinished.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

namespace wayfolio::files {

namespace {

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

/// Writes to a file or device that is there. @param name what a failure is told of
void write_into(const std::filesystem::path& path, const std::filesystem::path& name, std::string_view bytes) {
    const int descriptor = open(path.c_str(), O_WRONLY | O_CLOEXEC);
    if (descriptor < 0) throw OutputFailed(name, reason(), /*cannot_create=*/true);
    const bool written = write_all(descriptor, bytes);
    const int error = errno;
    const bool closed = close(descriptor) == 0;
    if (!written) errno = error;
    if (!written || !closed) throw OutputFailed(name, reason(), /*cannot_create=*/false);
}

}  // namespace

void write_file(const std::filesystem::path& path, std::string_view bytes, LeftOver left_over) {
    if (path == "-") return write_stream(STDOUT_FILENO, "standard output", bytes);
    struct stat there {};
    const bool exists = stat(path.c_str(), &there) == 0;
    if (exists && S_ISDIR(there.st_mode)) throw OutputFailed(path, "is a folder; name a file in it", /*cannot_create=*/true);
    // Devices and pipes cannot be replaced.
    if (exists && !S_ISREG(there.st_mode)) return write_into(path, path, bytes);
    if (exists && access(path.c_str(), W_OK) != 0) throw OutputFailed(path, reason(), /*cannot_create=*/true);
    // A link to a file stays a link: what it points to is replaced.
    Unfinished file(exists ? std::filesystem::canonical(path) : path, Unfinished::Kind::File, left_over);
    write_into(file.path(), path, bytes);
    file.move_into_place();
}

}  // namespace wayfolio::files
