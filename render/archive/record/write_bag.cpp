#include "archive/record/bag.hpp"
#include "output/unfinished.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>

namespace wayfolio::archive {
namespace {

namespace fs = std::filesystem;
using output::OutputFailed;

void write_plain(const fs::path& path, std::string_view bytes) {
    std::error_code error;
    fs::create_directories(path.parent_path(), error);
    std::ofstream file(path, std::ios::binary);
    if (!file) throw OutputFailed(path, std::strerror(errno), /*cannot_create=*/true);
    file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    file.close();
    if (!file) throw OutputFailed(path, std::strerror(errno), /*cannot_create=*/false);
}

/// The record's folder, made where it is missing; taken away again where nothing came into it.
class RecordFolder {
public:
    explicit RecordFolder(fs::path folder) : folder_(std::move(folder)) {
        std::error_code error;
        made_ = fs::create_directories(folder_, error);
        if (error) throw OutputFailed(folder_, error.message(), /*cannot_create=*/true);
    }
    ~RecordFolder() {
        std::error_code not_empty;
        if (made_) fs::remove(folder_, not_empty);
    }
    RecordFolder(const RecordFolder&) = delete;
    RecordFolder& operator=(const RecordFolder&) = delete;

private:
    fs::path folder_;
    bool made_ = false;
};

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

Files tag_files(const Files& payload, const BagInfo& info) {
    Manifests of_payload, of_tags;
    std::size_t octets = 0;
    for (const auto& [path, bytes] : payload) {
        of_payload.add("data/" + path, bytes);
        octets += bytes.size();
    }
    std::string about;
    for (const auto& [label, value] : info) about += line_of_info(label, value);
    about += line_of_info("Payload-Oxum", std::to_string(octets) + "." + std::to_string(payload.size()));
    Files tags{{"bagit.txt", "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"}, {"bag-info.txt", about},
               {"manifest-sha256.txt", of_payload.sha256}, {"manifest-sha512.txt", of_payload.sha512}};
    for (const auto& [name, bytes] : tags) of_tags.add(name, bytes);
    tags["tagmanifest-sha256.txt"] = of_tags.sha256;
    tags["tagmanifest-sha512.txt"] = of_tags.sha512;
    return tags;
}

void write_bag(const fs::path& folder, const Files& payload, const BagInfo& info, const Step& step) {
    std::error_code none;  // what cannot be looked at cannot be made either, which is told below
    if (fs::exists(folder, none)) throw OutputFailed(folder, "exists already; a record is never overwritten", /*cannot_create=*/true);
    const RecordFolder record(folder.parent_path());
    output::Unfinished making(folder, output::Unfinished::Kind::Folder);  // beside its target
    for (const auto& [path, bytes] : payload) {
        step("data/" + path);
        write_plain(making.path() / "data" / path, bytes);
    }
    for (const auto& [name, bytes] : tag_files(payload, info)) {
        step(name);
        write_plain(making.path() / name, bytes);
    }
    step("move into place");
    making.move_into_place();
    step("end");
}

}  // namespace wayfolio::archive
