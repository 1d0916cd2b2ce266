#pragma once
#include "evaluate/evaluation.hpp"
#include "document/document.hpp"

#include <string>
#include <vector>

/// The draft of a machine-readable certificate, in the open structure of the digital calibration certificate (DCC 3.3.0, namespaces
/// https://ptb.de/dcc and https://ptb.de/si). Elements and their order are written down from the published structure; no schema is at hand.
namespace wayfolio::certificate {

/// What the structure asks for and the document does not state.
struct Missing {
    std::string what, pointer;  ///< JSON Pointer to where the document would state it
    bool operator==(const Missing&) const = default;
};

struct Certificate {
    std::string xml;
    std::vector<Missing> missing;  ///< in the order of the document; the XML says it in comments, and invents nothing in its place
};

Certificate certificate_draft(const document::Document& document, const evaluate::Evaluation& evaluation);

}  // namespace wayfolio::certificate
