#include "input/base64.hpp"

#include <nettle/base64.h>

namespace wayfolio::input {

std::string decoded_base64(const std::string& text) {
    std::string bytes(BASE64_DECODE_LENGTH(text.size()), '\0');
    std::size_t length = bytes.size();
    base64_decode_ctx state;
    base64_decode_init(&state);
    if (base64_decode_update(&state, &length, reinterpret_cast<std::uint8_t*>(bytes.data()), text.size(), text.data()) != 1) length = 0;
    bytes.resize(length);
    return bytes;
}

}  // namespace wayfolio::input
