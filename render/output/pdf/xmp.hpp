#pragma once
#include "output/output.hpp"

namespace wayfolio::output {

/// The XMP packet (ISO 16684-1) that claims PDF/A-3a and PDF/UA-1 and repeats the document information dictionary.
std::string xmp(const Metadata& metadata, const std::string& producer);

}  // namespace wayfolio::output
