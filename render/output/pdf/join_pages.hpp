#pragma once
#include "output/pdf/pages_file.hpp"

#include <memory>

namespace wayfolio::output {

using PagesFiles = std::vector<std::unique_ptr<PagesFile>>;

/// The records of all files, as of one document.
std::vector<TagRecord> joined_records(const PagesFiles& files);

/// Objects of `whole` that the pages of all files will be: their numbers are known before the pages are there.
std::vector<Handle> reserve_pages(QPDF& whole, std::size_t count);

/// Copies the pages of all files to their reserved places, on the fonts of the first where others embed the same. The files must stay until
/// `whole` is written.
void join_pages(QPDF& whole, const PagesFiles& files, const std::vector<Handle>& places);

}  // namespace wayfolio::output
