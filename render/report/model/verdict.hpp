#pragma once
#include "evaluate/standing.hpp"
#include "report/model/text.hpp"

namespace wayfolio::report {

using evaluate::Standing;

/// What stands beside a value: the gauge in miniature, which follows from the standing, a word, and the margin in numbers. Never the
/// symbol alone.
struct Verdict {
    Standing standing = Standing::NoLimit;
    Text word;    ///< the one word for it, as every page and listing has it; strong where the value is not shown to be inside
    Text head;    ///< its beginning, where the rest goes on in `margin`: "Inside" of "Inside by less than U"
    Text margin;  ///< "3.4 µm to spare after U", "by less than U: 0.56 µm under"
    Text short_form;  ///< for a table cell: "Inside, 3.4 to spare"
    std::vector<Text> explanation;  ///< two short lines beside an opening
};

}  // namespace wayfolio::report
