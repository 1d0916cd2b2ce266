#pragma once
#include "page/composer.hpp"
#include "report/model/model.hpp"

#include <span>

namespace wayfolio::page {

/// A heading with its parts, flowing over pages: a heading never stands alone, of a table at least two rows stand on each page.
void place_section(Composer& composer, const report::Section& section, const std::string& label);

/// What a section needs of a page to begin there.
Paper least_section_height(const Composer& composer, const report::Section& section);

/// Sections one below the other. What is long and has no tables stands in two columns of equal height over the whole width.
void place_sections(Composer& composer, std::span<const report::Section> sections, const std::string& label);

}  // namespace wayfolio::page
