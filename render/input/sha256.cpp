#include "input/sha256.hpp"

#include <openssl/evp.h>
#include <stdexcept>

namespace wayfolio::input {

std::string sha256_hex(std::string_view bytes) {
    unsigned char digest[EVP_MAX_MD_SIZE];
    unsigned int length = 0;
    if (EVP_Digest(bytes.data(), bytes.size(), digest, &length, EVP_sha256(), nullptr) != 1)
        throw std::runtime_error("the SHA-256 digest could not be computed");
    constexpr char digits[] = "0123456789abcdef";
    std::string hex;
    hex.reserve(2UL * length);
    for (unsigned int place = 0; place < length; ++place) {
        hex += digits[digest[place] >> 4];
        hex += digits[digest[place] & 0xF];
    }
    return hex;
}

}  // namespace wayfolio::input
