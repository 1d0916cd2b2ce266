#pragma once
#include <filesystem>
#include <string>
#include <string_view>

namespace wayfolio::archive {

/// SHA-256 and SHA-512 (FIPS 180-4) in lower-case hexadecimal.
struct Digests {
    std::string sha256, sha512;
};

Digests digests_of(std::string_view bytes);

/// Read in pieces, so that a file of any size can be hashed. @throws input::InputMissing when it cannot be read
Digests digests_of_file(const std::filesystem::path& path);

}  // namespace wayfolio::archive
