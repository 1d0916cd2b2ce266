#pragma once
#include "report/model/text.hpp"

namespace wayfolio::report {

/// What stands beside a value: the gauge in miniature, a word, and the margin in numbers. Never the symbol alone.
enum class VerdictSymbol { Inside, Outside, Undecided, NotEvaluated, None };

struct Verdict {
    VerdictSymbol symbol = VerdictSymbol::None;
    Text word;    ///< "Inside", strong for every other verdict; "no limit set" quiet
    Text margin;  ///< "3.4 µm to spare after U"
    Text short_form;  ///< for a table cell: "Inside, 3.4 to spare"
    std::vector<Text> explanation;  ///< two short lines beside an opening
};

}  // namespace wayfolio::report
