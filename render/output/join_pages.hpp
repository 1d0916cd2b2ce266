#pragma once
#include "output/pages_file.hpp"

#include <memory>

namespace wayfolio::output {

using PagesFiles = std::vector<std::unique_ptr<PagesFile>>;

/// Copies the pages of all files into one, on the fonts of the first where others embed the same. The files must stay until it is written.
/// @return their records, as of one document
std::vector<TagRecord> join_pages(QPDF& whole, const PagesFiles& files);

}  // namespace wayfolio::output
