#include "archive/record/bag.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>

namespace wayfolio::archive {
namespace {

namespace fs = std::filesystem;
using output::OutputFailed;

/// A folder that is being filled; it goes away unless it was moved into place.
class NewFolder {
public:
    explicit NewFolder(const fs::path& target) {
        std::error_code error;
        fs::create_directories(target.parent_path(), error);
        if (error) throw OutputFailed(target.parent_path(), error.message(), /*cannot_create=*/true);
        // A killed process may have left a folder of the same name: take the next one.
        constexpr int most_attempts = 100;
        for (int attempt = 0; attempt < most_attempts && path_.empty(); ++attempt) {
            const fs::path candidate = target.parent_path() / ("." + target.filename().string() + ".part-" + std::to_string(getpid()) + "-" + std::to_string(attempt));
            if (fs::create_directory(candidate, error)) path_ = candidate;
            if (error) throw OutputFailed(candidate, error.message(), /*cannot_create=*/true);
        }
        if (path_.empty()) throw OutputFailed(target, "there are too many unfinished folders beside it", /*cannot_create=*/true);
    }
    ~NewFolder() {
        std::error_code ignored;
        if (!path_.empty()) fs::remove_all(path_, ignored);
    }
    NewFolder(const NewFolder&) = delete;
    NewFolder& operator=(const NewFolder&) = delete;

    [[nodiscard]] const fs::path& path() const { return path_; }
    void move_to(const fs::path& target) {
        // rename() refuses a folder that holds something, so a second writer cannot replace the first one's.
        if (rename(path_.c_str(), target.c_str()) != 0) throw OutputFailed(target, std::strerror(errno), /*cannot_create=*/true);
        path_.clear();
    }

private:
    fs::path path_;
};

void write_plain(const fs::path& path, std::string_view bytes) {
    std::error_code error;
    fs::create_directories(path.parent_path(), error);
    std::ofstream file(path, std::ios::binary);
    if (!file) throw OutputFailed(path, std::strerror(errno), /*cannot_create=*/true);
    file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    file.close();
    if (!file) throw OutputFailed(path, std::strerror(errno), /*cannot_create=*/false);
}

/// Brings all that was written below a folder to the disk.
void flush_all(const fs::path& folder) {
    const int descriptor = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    const bool flushed = descriptor >= 0 && syncfs(descriptor) == 0;
    const int error = errno;
    if (descriptor >= 0) close(descriptor);
    if (!flushed) throw OutputFailed(folder, std::strerror(error), /*cannot_create=*/false);
}

std::string line_of_info(const std::string& label, std::string value) {
    std::ranges::replace_if(value, [](char c) { return c == '\n' || c == '\r'; }, ' ');
    return value.empty() ? "" : label + ": " + value + "\n";
}

struct Manifests {
    std::string sha256, sha512;
    void add(const std::string& path, std::string_view bytes) {
        const Digests digests = digests_of(bytes);
        sha256 += digests.sha256 + "  " + path + "\n";
        sha512 += digests.sha512 + "  " + path + "\n";
    }
};

}  // namespace

void write_bag(const fs::path& folder, const Files& payload, const BagInfo& info, const Step& step) {
    if (fs::exists(folder)) throw OutputFailed(folder, "is there already, and a record is never overwritten", /*cannot_create=*/true);
    NewFolder making(folder);
    Manifests of_payload, of_tags;
    std::size_t octets = 0;
    for (const auto& [path, bytes] : payload) {
        step("data/" + path);
        write_plain(making.path() / "data" / path, bytes);
        of_payload.add("data/" + path, bytes);
        octets += bytes.size();
    }
    std::string about;
    for (const auto& [label, value] : info) about += line_of_info(label, value);
    about += line_of_info("Payload-Oxum", std::to_string(octets) + "." + std::to_string(payload.size()));
    const Files tags{{"bagit.txt", "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"}, {"bag-info.txt", about},
                     {"manifest-sha256.txt", of_payload.sha256}, {"manifest-sha512.txt", of_payload.sha512}};
    for (const auto& [name, bytes] : tags) of_tags.add(name, bytes);
    Files all = tags;
    all["tagmanifest-sha256.txt"] = of_tags.sha256;
    all["tagmanifest-sha512.txt"] = of_tags.sha512;
    for (const auto& [name, bytes] : all) {
        step(name);
        write_plain(making.path() / name, bytes);
    }
    step("flush");
    flush_all(making.path());
    step("move into place");
    making.move_to(folder);
    step("flush the folder");
    flush_all(folder);
}

}  // namespace wayfolio::archive
