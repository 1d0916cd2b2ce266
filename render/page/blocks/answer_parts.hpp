#pragma once
#include "page/composer.hpp"
#include "report/model/model.hpp"

#include <string>
#include <vector>

/// Parts of the first page, private to its block.
namespace wayfolio::page {

/// Names beside their values at the top of the margin column. Returns its lowest baseline.
Paper place_facts(Composer& composer, const std::vector<report::Fact>& facts);

/// Heading and paragraphs, numbered where `numbered`; goes on over pages paragraph by paragraph.
void place_words(Composer& composer, const report::Answer& block, const std::string& heading, const std::vector<Text>& paragraphs,
                 bool numbered);

}  // namespace wayfolio::page
