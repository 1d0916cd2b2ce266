#pragma once
#include "output/output.hpp"
#include "output/pdf/write_pdf.hpp"

namespace wayfolio::output {

/// Embeds files byte for byte and associates them with the document (ISO 19005-3, 6.8); gives the catalog's entries that say so.
std::string attach(Objects& objects, const EmbeddedFiles& files);

}  // namespace wayfolio::output
