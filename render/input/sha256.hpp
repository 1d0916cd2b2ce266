#pragma once
#include <string>
#include <string_view>

namespace wayfolio::input {

/// SHA-256 (FIPS 180-4) of the bytes, as 64 lower-case hexadecimal digits.
std::string sha256_hex(std::string_view bytes);

}  // namespace wayfolio::input
