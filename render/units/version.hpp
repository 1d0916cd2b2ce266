#pragma once
#include <string_view>

namespace wayfolio {

/// The program's version, as CMakeLists.txt names it: printed by --version, in every evaluation and on every page.
std::string_view version();

}  // namespace wayfolio
