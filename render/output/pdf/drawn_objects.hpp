#pragma once
#include "output/pdf/qpdf.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::output {

/// The objects of Cairo's file `drawn` whose text starts with `beginning`, found without reading any object: reading thousands of
/// structure elements that are replaced anyway takes longer than drawing the pages. `file` was made from `drawn`.
std::vector<Handle> objects_beginning(QPDF& file, const std::string& drawn, std::string_view beginning);

}  // namespace wayfolio::output
