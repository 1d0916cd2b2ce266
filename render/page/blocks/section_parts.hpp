#pragma once
#include "page/composer.hpp"
#include "report/model/model.hpp"

namespace wayfolio::page {

/// A heading with its parts, flowing over pages: a heading never stands alone, a table row never breaks.
void place_section(Composer& composer, const report::Section& section, const std::string& label);

}  // namespace wayfolio::page
