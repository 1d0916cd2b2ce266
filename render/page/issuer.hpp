#pragma once
#include "page/composer.hpp"
#include "report/model/model.hpp"

namespace wayfolio::page {

/// Where its first line stands.
inline constexpr Paper issuer_first_baseline = pt(43.5);

/// The issuer at the head of the first page: logo, laboratory with address, accreditation and traceability in the wide column; report,
/// edition and page in the margin column. No higher than five lines: what is longer is cut.
/// @param page  "Page 1 of 12"
std::vector<Group> issuer_block(const report::RunningText& running, const Tools& tools, const std::string& page);

/// Whether that cuts anything.
bool cuts_issuer(const report::Issuer& issuer, bool logo, const Tools& tools);

/// The words, cut with an ellipsis where they are wider than their place.
Text fitted(const Tools& tools, const std::string& words, const Look& look, Paper width);

}  // namespace wayfolio::page
