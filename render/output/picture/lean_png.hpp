#pragma once
#include <string>

namespace wayfolio::output {

/// The chunks of a PNG picture that make its pixels, and no others: texts and colour profiles may unpack to any size, and nothing reads
/// them. Its size is looked at before anything is unpacked.
/// @throws PictureRefused where it is cut off, damaged or larger than may be
std::string lean_png(const std::string& png);

}  // namespace wayfolio::output
