#pragma once
#include "compare/comparison.hpp"

namespace wayfolio::compare {

/// What the two documents (JSON texts) say differently, readings and remarks of their own left out.
std::vector<Change> document_changes(const std::string& was, const std::string& now);

}  // namespace wayfolio::compare
