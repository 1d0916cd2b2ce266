#include "archive/record/bag.hpp"

#include "input/digest.hpp"
#include "input/read_file.hpp"

namespace wayfolio::archive {
Digests digests_of(std::string_view bytes) {
    input::Digest sha256(input::DigestKind::Sha256), sha512(input::DigestKind::Sha512);
    sha256.add(bytes);
    sha512.add(bytes);
    return {sha256.hex(), sha512.hex()};
}

Digests digests_of_file(const std::filesystem::path& path) {
    input::Digest sha256(input::DigestKind::Sha256), sha512(input::DigestKind::Sha512);
    input::read_in_pieces(path, [&](std::string_view piece) {
        sha256.add(piece);
        sha512.add(piece);
    });
    return {sha256.hex(), sha512.hex()};
}

}  // namespace wayfolio::archive
