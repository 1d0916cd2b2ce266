#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::output {

/// Bytes that lie packed in a file.
struct Packed {
    std::string bytes;
    bool pack;  ///< whether packing is still to be done or, afterwards, was
};

/// Packed in the format of zlib (RFC 1950).
std::string packed(std::string_view bytes);
/// What was packed so. @throws std::runtime_error when it was not
std::string unpacked(std::string_view packed_bytes);

/// Packs all that are to be; several at a time where the machine has several processors. The result is the same on all.
void pack(const std::vector<Packed*>& all);

}  // namespace wayfolio::output
