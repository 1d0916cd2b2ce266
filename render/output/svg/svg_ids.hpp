#pragma once
#include <string>

namespace wayfolio::output {

/// Cairo numbers surfaces and images by what the process made before. Here every id and reference gets a number by its order in
/// the file, and `prefix` in front.
std::string with_steady_ids(const std::string& svg, const std::string& prefix);

}  // namespace wayfolio::output
