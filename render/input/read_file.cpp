#include "input/read_file.hpp"

#include "input/problem.hpp"

#include <fcntl.h>
#include <sys/stat.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <memory>

namespace wayfolio::input {
namespace {

namespace fs = std::filesystem;

std::string read_stream(std::FILE* stream, const std::string& name, std::size_t first_guess) {
    std::string bytes;
    std::size_t filled = 0;
    bytes.resize(std::clamp<std::size_t>(first_guess + 1, 4096, largest_file + 1));
    while (true) {
        filled += std::fread(bytes.data() + filled, 1, bytes.size() - filled, stream);
        if (std::ferror(stream) != 0) throw InputMissing(name, std::string("cannot be read: ") + std::strerror(errno));
        if (filled < bytes.size() || filled > largest_file) break;
        bytes.resize(std::min(2 * bytes.size(), largest_file + 1));
    }
    bytes.resize(filled);
    return bytes;
}

enum class Kinds { Any, Regular };

/// An open file; its size where it has one.
struct OpenFile {
    struct Close {
        void operator()(std::FILE* stream) const { std::fclose(stream); }
    };
    std::unique_ptr<std::FILE, Close> stream;
    std::size_t size = 0;

    OpenFile(const fs::path& path, Kinds kinds) {
        // Opened without waiting: a pipe that nobody writes to would hold the call itself.
        const int descriptor = open(path.c_str(), O_RDONLY | O_CLOEXEC | (kinds == Kinds::Regular ? O_NONBLOCK : 0));
        if (descriptor < 0) throw InputMissing(path.string(), std::string("cannot be opened: ") + std::strerror(errno));
        stream.reset(fdopen(descriptor, "rb"));
        struct stat found {};
        if (!stream || fstat(descriptor, &found) != 0) throw InputMissing(path.string(), std::strerror(errno));
        if (S_ISDIR(found.st_mode)) throw InputMissing(path.string(), "is a folder, not a file");
        if (kinds == Kinds::Regular && !S_ISREG(found.st_mode))
            throw InputMissing(path.string(), "is a pipe or a device, where a regular file must be");
        size = S_ISREG(found.st_mode) ? static_cast<std::size_t>(found.st_size) : 0;
    }
};

}  // namespace

std::string read_file(const fs::path& path) {
    if (path == "-") return read_stream(stdin, "standard input", 0);
    const OpenFile file(path, Kinds::Any);
    return read_stream(file.stream.get(), path.string(), file.size);
}

std::string read_regular_file(const fs::path& path) {
    const OpenFile file(path, Kinds::Regular);
    return read_stream(file.stream.get(), path.string(), file.size);
}

void read_in_pieces(const fs::path& path, const std::function<void(std::string_view)>& take) {
    const OpenFile file(path, Kinds::Regular);
    std::array<char, 65536> piece{};
    while (const std::size_t got = std::fread(piece.data(), 1, piece.size(), file.stream.get())) take({piece.data(), got});
    if (std::ferror(file.stream.get()) != 0) throw InputMissing(path.string(), std::string("cannot be read: ") + std::strerror(errno));
}

void require_readable_folder(const fs::path& folder) {
    std::error_code failure;
    fs::directory_iterator(folder, failure);
    if (failure) throw InputMissing(folder.string(), "cannot be looked into: " + failure.message());
}

bool is_plain_file_name(std::string_view name) {
    if (name.empty() || name == "." || name == "..") return false;
    return std::ranges::none_of(name, [](char letter) {
        return letter == '/' || letter == '\\' || letter == ':' || static_cast<unsigned char>(letter) < 0x20;
    });
}

fs::path path_beside(const fs::path& folder, const std::string& name) {
    if (!is_plain_file_name(name)) throw InputMissing(name, "is not the name of a file in the document's own folder");
    std::error_code failure;
    const fs::path home = fs::canonical(folder.empty() ? fs::path(".") : folder, failure);
    const fs::path target = failure ? fs::path() : fs::canonical(home / name, failure);
    if (failure) throw InputMissing(name, "is not in the document's folder");
    if (target.parent_path() != home) throw InputMissing(name, "is a link that leads out of the document's folder");
    return target;
}

std::string read_file_beside(const fs::path& folder, const std::string& name) { return read_regular_file(path_beside(folder, name)); }

}  // namespace wayfolio::input
