#pragma once
#include "compare/comparison.hpp"

namespace wayfolio::compare {

/// What the two documents (JSON texts) say differently, readings and remarks of their own left out.
/// `other_ids`: series whose counterpart has another id, which are compared with it.
std::vector<Change> document_changes(const std::string& was, const std::string& now, const std::vector<OtherId>& other_ids);

}  // namespace wayfolio::compare
