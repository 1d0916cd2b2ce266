#include "input/encoding.hpp"

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

std::string base64(std::string_view bytes) {
    std::string text(BASE64_ENCODE_RAW_LENGTH(bytes.size()), '\0');
    base64_encode_raw(text.data(), bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
    return text;
}

}  // namespace wayfolio::input
