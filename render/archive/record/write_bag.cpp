#include "archive/record/bag.hpp"
#include "files/unfinished.hpp"
#include "input/digest.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>

namespace wayfolio::archive {
namespace {

namespace fs = std::filesystem;
using files::OutputFailed;

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

/// Piece by piece. @returns the digests of what was written
Digests copy_plain(const fs::path& path, const input::ByteSource& source) {
    std::error_code error;
    fs::create_directories(path.parent_path(), error);
    std::ofstream file(path, std::ios::binary);
    if (!file) throw OutputFailed(path, std::strerror(errno), /*cannot_create=*/true);
    input::Digest sha256(input::DigestKind::Sha256), sha512(input::DigestKind::Sha512);
    input::read_in_pieces(source, [&](std::string_view piece) {
        file.write(piece.data(), static_cast<std::streamsize>(piece.size()));
        sha256.add(piece);
        sha512.add(piece);
    });
    file.close();
    if (!file) throw OutputFailed(path, std::strerror(errno), /*cannot_create=*/false);
    return {sha256.hex(), sha512.hex()};
}

}  // namespace

void Manifests::add(const std::string& path, const Digests& digests, std::size_t size) {
    sha256 += digests.sha256 + "  " + path + "\n";
    sha512 += digests.sha512 + "  " + path + "\n";
    octets += size;
    ++files;
}

Files tag_files(const Manifests& payload, const BagInfo& info) {
    std::string about;
    for (const auto& [label, value] : info) about += line_of_info(label, value);
    about += line_of_info("Payload-Oxum", std::to_string(payload.octets) + "." + std::to_string(payload.files));
    Files tags{{"bagit.txt", "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"}, {"bag-info.txt", about},
               {"manifest-sha256.txt", payload.sha256}, {"manifest-sha512.txt", payload.sha512}};
    Manifests of_tags;
    for (const auto& [name, bytes] : tags) of_tags.add(name, digests_of(bytes), bytes.size());
    tags["tagmanifest-sha256.txt"] = of_tags.sha256;
    tags["tagmanifest-sha512.txt"] = of_tags.sha512;
    return tags;
}

void write_bag(const fs::path& folder, const Payload& payload, const BagInfo& info, const Step& step) {
    std::error_code none;  // what cannot be looked at cannot be made either, which is told below
    if (fs::exists(folder, none)) throw OutputFailed(folder, "exists already; a record is never overwritten", /*cannot_create=*/true);
    const RecordFolder record(folder.parent_path());
    files::Unfinished making(folder, files::Unfinished::Kind::Folder);  // beside its target
    Manifests manifests;
    for (const auto& [path, bytes] : payload.files) {
        step("data/" + path);
        write_plain(making.path() / "data" / path, bytes);
        manifests.add("data/" + path, digests_of(bytes), bytes.size());
    }
    for (const auto& [path, source] : payload.large) {
        step("data/" + path);
        manifests.add("data/" + path, copy_plain(making.path() / "data" / path, source), source.size);
    }
    for (const auto& [name, bytes] : tag_files(manifests, info)) {
        step(name);
        write_plain(making.path() / name, bytes);
    }
    step("move into place");
    making.move_into_place();
    step("end");
}

}  // namespace wayfolio::archive
