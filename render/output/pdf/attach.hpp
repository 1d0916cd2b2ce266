#pragma once
#include "output/output.hpp"

class QPDF;

namespace wayfolio::output {

/// Embeds files byte for byte and associates them with the document (ISO 19005-3, 6.8).
/// @param packed the bytes of each, packed
/// @param modified whole ISO 8601 time that every attachment carries
void attach(QPDF& file, const std::vector<Attachment>& attachments, const std::vector<std::string>& packed, const std::string& modified);

}  // namespace wayfolio::output
