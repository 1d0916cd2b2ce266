#pragma once
#include "unpack/stream_unpacker.hpp"

#include <map>
#include <string>

namespace wayfolio::archive {

/// From the codes of a font to text (ISO 32000-1, 9.10.3).
struct UnicodeMap {
    std::size_t code_bytes = 1;
    std::map<unsigned int, std::string> text;  ///< UTF-8 by code
};

UnicodeMap unicode_map(unpack::Handle font, unpack::StreamUnpacker& unpacker);

/// The text of a shown string; U+FFFD for a code that the font does not map.
std::string decoded(const std::string& codes, const UnicodeMap& map);

}  // namespace wayfolio::archive
