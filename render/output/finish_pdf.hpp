#pragma once
#include "output/output.hpp"
#include "output/page_contents.hpp"
#include "output/tag_record.hpp"

namespace wayfolio::output {

/// What the finishing pass adds to Cairo's pages.
struct PdfParts {
    const Metadata& metadata;
    const std::vector<TagRecord>& tags;
    std::vector<std::string> page_labels;
    std::vector<PageContent> contents;
    const std::vector<Attachment>& attachments;
    std::vector<std::string> packed_attachments;  ///< the bytes of each, packed
};

/// Turns Cairo's PDF into one that follows PDF/A-3a (ISO 19005-3) and PDF/UA-1 (ISO 14289-1): language, artifacts, alternative
/// text, table scopes, output intent, XMP, attachments, an ID that depends on the content only.
/// @throws std::logic_error when the structure tree is not the one that was drawn
std::string finish_pdf(const std::string& drawn, const PdfParts& parts);

}  // namespace wayfolio::output
