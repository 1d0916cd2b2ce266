#pragma once
#include "compare/comparison.hpp"
#include "produce/produce.hpp"

namespace wayfolio::produce {

/// Two results to be set side by side. Plain references: the caller owns the values and keeps them alive.
struct ComparisonDrawing {
    const document::Document &was, &now;  ///< what they mark internal is left out
    const evaluate::Evaluation &evaluation_was, &evaluation_now;
    const layouts::Layout& layout;
    const text::Shaper& shaper;
    LibraryVersions versions = versions_in_use(now);  ///< enter the fingerprint; a test of a drawing gives its own
    compare::Beside beside = compare::Beside::Same;
};

/// Pages of the comparison, finished and absolutely placed. @throws as report_pages
std::vector<frame::Frame> comparison_pages(const ComparisonDrawing& drawing);

/// The comparison as PDF bytes, with both documents, their side files and every number inside. @throws as report_pdf
std::string comparison_pdf(const ComparisonDrawing& drawing);

}  // namespace wayfolio::produce
