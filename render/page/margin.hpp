#pragma once
#include "page/composer.hpp"
#include "report/model/model.hpp"

namespace wayfolio::page {

/// Puts things into the margin column beside what they speak about. Taken height is pushed down in steps of 2 pt, never up.
/// Words that have no room above the page's foot go on in the margin of the next page. Each returns the baseline of its last line.

/// A verdict: symbol, word, and its second lines.
Paper margin_verdict(Composer& composer, const report::Verdict& verdict, Paper anchor, const std::vector<Text>& lines);
/// From the anchor of a verdict without lines to the baseline of its last line, where the margin is free.
Paper margin_verdict_height(const Composer& composer, const report::Verdict& verdict);
/// Caption of a figure, which it becomes the first part of: its number in strong, then the words.
Paper margin_caption(Composer& composer, Group& figure, const std::string& number, const Text& caption, Paper anchor);
/// A value: symbol, number, notes below.
Paper margin_value(Composer& composer, const report::MarginValue& value, Paper anchor);
/// Small paragraphs under an optional heading.
Paper margin_notes(Composer& composer, const std::string& heading, const std::vector<Text>& notes, Paper anchor);

/// Which marks a figure's key explains.
struct Key {
    bool positive = false, negative = false, bands = false, runs = false, mean = false, excluded = false, trace = false;
    std::string pale_means;  ///< what the pale means are; empty: there are none
    std::size_t runs_each_way = 0;
    int readings_page = 0;  ///< where excluded readings are named; 0: nowhere
};
Key key_of(const report::DeviationPlot& plot, std::size_t runs_each_way);
/// How high margin_notes without a heading is, from its first to its last baseline.
Paper margin_notes_height(const Composer& composer, const std::vector<Text>& notes);
/// Swatches with their words, one below the other.
Paper margin_key(Composer& composer, const Key& key, Paper anchor);

}  // namespace wayfolio::page
