#pragma once
#include "compare/comparison.hpp"

namespace wayfolio::compare {

/// Reading by reading, at the same target, run and direction.
ReadingChanges reading_changes(const document::Series& was, const document::Series& now);

}  // namespace wayfolio::compare
