#include "archive/record/bag.hpp"

#include "input/digest.hpp"
#include "input/problem.hpp"

#include <array>
#include <fstream>

namespace wayfolio::archive {
Digests digests_of(std::string_view bytes) {
    input::Digest sha256(input::DigestKind::Sha256), sha512(input::DigestKind::Sha512);
    sha256.add(bytes);
    sha512.add(bytes);
    return {sha256.hex(), sha512.hex()};
}

Digests digests_of_file(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file) throw input::InputMissing(path.string(), "cannot be opened");
    input::Digest sha256(input::DigestKind::Sha256), sha512(input::DigestKind::Sha512);
    std::array<char, 65536> piece{};
    while (file) {
        file.read(piece.data(), piece.size());
        const std::string_view got(piece.data(), static_cast<std::size_t>(file.gcount()));
        sha256.add(got);
        sha512.add(got);
    }
    if (!file.eof()) throw input::InputMissing(path.string(), "cannot be read");
    return {sha256.hex(), sha512.hex()};
}

}  // namespace wayfolio::archive
