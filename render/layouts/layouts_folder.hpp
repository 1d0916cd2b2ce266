#pragma once
#include <filesystem>

namespace wayfolio::layouts {

/// The folder of the shipped layouts: the source tree's when the running program lies in its build tree, else
/// ../share/wayfolio/layouts beside the program, else the one this library was installed with. Never taken from the environment.
std::filesystem::path layouts_folder();

}  // namespace wayfolio::layouts
