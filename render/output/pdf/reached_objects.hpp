#pragma once
#include "output/pdf/object_texts.hpp"
#include "output/pdf/qpdf.hpp"

namespace wayfolio::output {

/// The numbered objects that the trailer leads to, in the order of their numbers, without those that have a text and what only
/// those lead to.
std::vector<Handle> reached_objects(QPDF& file, const ObjectTexts& texts);

}  // namespace wayfolio::output
