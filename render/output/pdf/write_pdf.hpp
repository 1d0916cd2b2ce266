#pragma once
#include "output/pdf/object_texts.hpp"

class QPDF;

namespace wayfolio::output {

/// The bytes of a PDF 1.7: every object of `file` that its trailer leads to, and `texts` in the place of those with the same
/// number. Objects keep their numbers and lie in object streams (ISO 32000-1 7.5.7), streams that are not packed yet are. The ID
/// depends on the content only. Not libqpdf's own writer: that spells each object in an object stream twice, piece by piece, which
/// for the thousands of elements of a structure tree was a quarter of the time of a report.
std::string write_pdf(QPDF& file, ObjectTexts texts);

}  // namespace wayfolio::output
