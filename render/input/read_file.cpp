#include "input/read_file.hpp"

#include "input/problem.hpp"

#include <algorithm>
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

}  // namespace

std::string read_file(const fs::path& path) {
    if (path == "-") return read_stream(stdin, "standard input", 0);
    std::error_code failure;
    if (fs::is_directory(path, failure)) throw InputMissing(path.string(), "is a folder, not a file");
    struct Close {
        void operator()(std::FILE* stream) const { std::fclose(stream); }
    };
    const std::unique_ptr<std::FILE, Close> stream(std::fopen(path.c_str(), "rb"));
    if (!stream) throw InputMissing(path.string(), std::string("cannot be opened: ") + std::strerror(errno));
    const auto size = fs::file_size(path, failure);
    return read_stream(stream.get(), path.string(), failure ? 0 : static_cast<std::size_t>(size));
}

bool is_plain_file_name(std::string_view name) {
    if (name.empty() || name == "." || name == "..") return false;
    return std::ranges::none_of(name, [](char letter) {
        return letter == '/' || letter == '\\' || letter == ':' || static_cast<unsigned char>(letter) < 0x20;
    });
}

std::string read_file_beside(const fs::path& folder, const std::string& name) {
    if (!is_plain_file_name(name)) throw InputMissing(name, "is not the name of a file in the document's own folder");
    std::error_code failure;
    const fs::path home = fs::canonical(folder.empty() ? fs::path(".") : folder, failure);
    const fs::path target = failure ? fs::path() : fs::canonical(home / name, failure);
    if (failure) throw InputMissing(name, "is not in the document's folder");
    if (target.parent_path() != home) throw InputMissing(name, "is a link that leads out of the document's folder");
    if (!fs::is_regular_file(target, failure)) throw InputMissing(name, "is not a regular file");
    return read_file(target);
}

}  // namespace wayfolio::input
