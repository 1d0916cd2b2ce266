#pragma once
#include <string>
#include <vector>

namespace wayfolio::output {

/// Bytes that lie packed in a file.
struct Packed {
    std::string bytes;
    bool pack;  ///< whether packing is still to be done or, afterwards, was
};

/// Packs all that are to be, by zlib; several at a time where the machine has several processors. The result is the same on all.
void pack(const std::vector<Packed*>& all);

}  // namespace wayfolio::output
