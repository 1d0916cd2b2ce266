#pragma once
#include <string>
#include <vector>

namespace wayfolio::archive {

/// Where two evaluations (JSON texts) differ: one line for each value, with its JSON Pointer, as kept and as evaluated again.
/// Empty when they say the same. A text that is not JSON is one difference.
std::vector<std::string> number_differences(const std::string& kept, const std::string& fresh);

}  // namespace wayfolio::archive
