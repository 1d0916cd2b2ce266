#pragma once
#include "output/output.hpp"
#include "output/pdf/write_pdf.hpp"

namespace wayfolio::output {

/// Embeds files byte for byte and associates them with the document (ISO 19005-3, 6.8); gives the catalog's entries that say so.
/// @param packed the bytes of each, packed
/// @param modified PDF date that every attachment carries
std::string attach(Objects& objects, const std::vector<Attachment>& attachments, std::vector<std::string> packed,
                   const std::string& modified);

}  // namespace wayfolio::output
