#include "input/sha256.hpp"

#include "input/digest.hpp"

namespace wayfolio::input {

std::string sha256_hex(std::string_view bytes) {
    Digest digest(DigestKind::Sha256);
    digest.add(bytes);
    return digest.hex();
}

}  // namespace wayfolio::input
