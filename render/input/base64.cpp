#include "input/base64.hpp"

#include <openssl/evp.h>

#include <algorithm>

namespace wayfolio::input {

std::string decoded_base64(const std::string& text) {
    const auto padding = std::ranges::count(text, '=');
    std::string bytes(text.size() / 4 * 3, '\0');
    const int length = EVP_DecodeBlock(reinterpret_cast<unsigned char*>(bytes.data()), reinterpret_cast<const unsigned char*>(text.data()),
                                       static_cast<int>(text.size()));
    // EVP_DecodeBlock counts the bytes of the padding too.
    bytes.resize(static_cast<std::size_t>(std::max<long>(0, length - padding)));
    return bytes;
}

}  // namespace wayfolio::input
