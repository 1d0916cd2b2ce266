#pragma once
#include "conformance/read/handle.hpp"
#include "unpack/stream_unpacker.hpp"

#include <map>

namespace wayfolio::conformance {

/// What a font's /ToUnicode says (ISO 32000-1, 9.10.3): Unicode by character code. Empty where there is none.
/// @throws std::runtime_error as unpack::StreamUnpacker::unpacked, or where it says more than any font can hold
std::map<unsigned, std::u32string> unicode_of(Handle font, unpack::StreamUnpacker& unpacker);

/// A character of the private use areas (U+E000 to U+F8FF, planes 15 and 16).
inline bool is_private_use(char32_t character) {
    return (character >= 0xE000 && character <= 0xF8FF) || character >= 0xF0000;
}

}  // namespace wayfolio::conformance
