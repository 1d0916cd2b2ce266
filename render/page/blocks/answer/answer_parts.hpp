#pragma once
#include "page/composer.hpp"
#include "report/model/model.hpp"

#include <string>
#include <vector>

/// Parts of the first page, private to its block.
namespace wayfolio::page {

/// Names beside their values in the margin column, the first with its baseline at `top`. Returns the lowest baseline.
Paper place_facts(Composer& composer, const std::vector<report::Fact>& facts, Paper top);

/// Heading and paragraphs, numbered where `numbered`; goes on over pages paragraph by paragraph.
void place_words(Composer& composer, const report::Answer& block, const std::string& heading, const std::vector<Text>& paragraphs,
                 bool numbered);
/// What place_words would take, to the baseline that follows.
Paper words_height(Composer& composer, const std::vector<Text>& paragraphs, bool numbered);

/// The table of rows with a limit, its axes under it.
void place_rows(Composer& composer, const report::Answer& block);
/// Rows in grey under their headings, and what they take.
void place_quiet_rows(Composer& composer, const report::Answer& block);
Paper quiet_rows_height(const report::Answer& block);

/// All of it, on as many pages as it takes.
void place_answer(Composer& composer, const report::Answer& block);
/// So much of it as one page holds, with what is left out counted. A limit that is not kept is left out last.
report::Answer fitted_to_a_page(const Composer& composer, const report::Answer& whole);

}  // namespace wayfolio::page
