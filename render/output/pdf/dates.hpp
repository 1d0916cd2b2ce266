#pragma once
#include <string>

namespace wayfolio::output {

/// A whole ISO 8601 date-time from a date, a date-time without zone (taken as UTC), or nothing (the Unix epoch).
/// @throws std::logic_error for anything else: the document reader has checked its dates
std::string whole_time(const std::string& date);
/// "2026-03-02T10:20:30+01:00" as a PDF date "D:20260302102030+01'00'" (ISO 32000-1, 7.9.4).
std::string pdf_date(const std::string& whole_time);

}  // namespace wayfolio::output
