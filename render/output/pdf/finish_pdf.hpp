#pragma once
#include "output/output.hpp"
#include "output/pdf/join_pages.hpp"

namespace wayfolio::output {

/// What the finishing pass adds to Cairo's pages.
struct PdfParts {
    const Metadata& metadata;
    const std::vector<frame::Frame>& pages;
    const std::vector<Attachment>& attachments;
    std::vector<std::string> packed_attachments;  ///< the bytes of each, packed
};

/// Turns Cairo's PDF into one that follows PDF/A-3a (ISO 19005-3) and PDF/UA-1 (ISO 14289-1): language, artifacts, alternative
/// text, table scopes, links, bookmarks, output intent, XMP, attachments, an ID that depends on the content only.
/// @throws std::logic_error for two anchors of one name, or a link to none
std::string finish_pdf(const PagesFiles& drawn, const PdfParts& parts);

}  // namespace wayfolio::output
