#pragma once
#include "archive/verify/verify.hpp"

namespace wayfolio::archive {

/// The fingerprint of the carried list against those that the file states: in its Info dictionary (/Keywords) and twice in XMP.
Check check_stated_fingerprint(const std::string& pdf, const Making& making);

}  // namespace wayfolio::archive
