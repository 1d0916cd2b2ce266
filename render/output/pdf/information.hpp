#pragma once
#include "output/output.hpp"

namespace wayfolio::output {

/// A whole ISO 8601 date-time from a date, a date-time without zone (taken as UTC), or nothing (the Unix epoch).
/// @throws std::logic_error for anything else: the document reader has checked its dates
std::string whole_time(const std::string& date);
/// "2026-03-02T10:20:30+01:00" as a PDF date "D:20260302102030+01'00'" (ISO 32000-1, 7.9.4).
std::string pdf_date(const std::string& whole_time);

/// The document information dictionary (ISO 32000-1, 14.3.3).
std::string information(const Metadata& metadata, const std::string& producer);
/// The XMP packet (ISO 16684-1) that claims PDF/A-3a and PDF/UA-1 and repeats the document information dictionary.
std::string xmp(const Metadata& metadata, const std::string& producer);

}  // namespace wayfolio::output
