#include "input/byte_source.hpp"

#include "input/problem.hpp"
#include "input/read_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <memory>

namespace wayfolio::input {
namespace {

namespace fs = std::filesystem;

/// A regular file that is open, and what it was when it was opened.
class OpenedFile {
public:
    explicit OpenedFile(std::string name) : name_(std::move(name)) {
        // Opened without waiting: a pipe that nobody writes to would hold the call itself.
        descriptor_ = open(name_.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
        if (descriptor_ < 0) throw InputMissing(name_, std::string("cannot be opened: ") + std::strerror(errno));
        opened_ = now();
    }
    ~OpenedFile() {
        if (descriptor_ >= 0) close(descriptor_);
    }
    OpenedFile(const OpenedFile&) = delete;
    OpenedFile& operator=(const OpenedFile&) = delete;

    [[nodiscard]] bool is_regular() const { return S_ISREG(opened_.st_mode); }
    [[nodiscard]] std::size_t size() const { return static_cast<std::size_t>(opened_.st_size); }

    [[nodiscard]] std::size_t read_at(std::size_t place, std::span<char> into) const {
        std::size_t filled = 0;
        while (filled < into.size()) {
            const ssize_t got = pread(descriptor_, into.data() + filled, into.size() - filled, static_cast<off_t>(place + filled));
            if (got < 0 && errno == EINTR) continue;
            if (got < 0) throw InputMissing(name_, std::string("cannot be read: ") + std::strerror(errno));
            if (got == 0) break;
            filled += static_cast<std::size_t>(got);
        }
        const struct stat at = now();
        if (at.st_size != opened_.st_size || at.st_mtim.tv_sec != opened_.st_mtim.tv_sec || at.st_mtim.tv_nsec != opened_.st_mtim.tv_nsec)
            throw InputMissing(name_, "was changed while it was read");
        return filled;
    }

private:
    [[nodiscard]] struct stat now() const {
        struct stat found {};
        if (fstat(descriptor_, &found) != 0) throw InputMissing(name_, std::strerror(errno));
        return found;
    }

    std::string name_;
    int descriptor_ = -1;
    struct stat opened_ {};
};

}  // namespace

ByteSource source_of(std::string bytes) {
    const auto held = std::make_shared<const std::string>(std::move(bytes));
    return {held->size(), [held](std::size_t place, std::span<char> into) {
                const std::size_t from = std::min(place, held->size());
                return held->copy(into.data(), into.size(), from);
            }};
}

ByteSource source_of_file(const fs::path& path) {
    const auto file = std::make_shared<const OpenedFile>(path.string());
    if (!file->is_regular()) throw InputMissing(path.string(), "is no regular file");
    return {file->size(), [file](std::size_t place, std::span<char> into) { return file->read_at(place, into); }};
}

ByteSource source_beside(const fs::path& folder, const std::string& name) { return source_of_file(path_beside(folder, name)); }

void read_in_pieces(const ByteSource& source, const std::function<void(std::string_view)>& take) {
    std::array<char, 65536> piece{};
    for (std::size_t place = 0; place < source.size;) {
        const std::size_t got = source.read_at(place, piece);
        if (got == 0) return;
        take({piece.data(), got});
        place += got;
    }
}

}  // namespace wayfolio::input
