#pragma once
#include "archive/record/making.hpp"

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// A BagIt 1.0 bag (RFC 8493): files under data/, their digests in manifests beside it.
namespace wayfolio::archive {

/// Called before each step of writing, with the file that comes next.
using Step = std::function<void(std::string_view next)>;

/// SHA-256 and SHA-512 (FIPS 180-4) in lower-case hexadecimal.
struct Digests {
    std::string sha256, sha512;
};

Digests digests_of(std::string_view bytes);

/// Read in pieces, so that a file of any size can be hashed. @throws input::InputMissing when it cannot be read
Digests digests_of_file(const std::filesystem::path& path);

/// Labels and values of bag-info.txt.
using BagInfo = std::vector<std::pair<std::string, std::string>>;

struct Payload {
    Files files;
    LargeFiles large;
};

/// What the manifests of a bag say of its payload, in the order of adding.
struct Manifests {
    std::string sha256, sha512;
    std::size_t octets = 0, files = 0;
    /// @param path from the bag's folder
    void add(const std::string& path, const Digests& digests, std::size_t size);
};

/// What makes files a bag: bagit.txt, bag-info.txt and the manifests, by name.
Files tag_files(const Manifests& payload, const BagInfo& info);

/// Writes a bag beside `folder`, brings it to the disk, and moves it into place: it is there whole or not at all.
/// @param payload by path under data/
/// @throws files::OutputFailed, also when `folder` is there already
void write_bag(const std::filesystem::path& folder, const Payload& payload, const BagInfo& info, const Step& step);

/// What makes the bag invalid, each fault in one line that names the file; empty for a complete and valid bag.
std::vector<std::string> bag_faults(const std::filesystem::path& folder);

/// The values of a label in bag-info.txt; "" where there is none.
std::string bag_info(const std::filesystem::path& folder, std::string_view label);

/// Whether the folder is a bag at all.
bool is_bag(const std::filesystem::path& folder);

/// Whether a name can stand in a bag on every common file system (RFC 8493, 5.2 and 6.1.1): no separators, no characters or
/// device names that another system refuses, not hidden, no end in a point or blank.
bool is_safe_name(std::string_view name);

}  // namespace wayfolio::archive
