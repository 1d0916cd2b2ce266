#pragma once
#include <string>

namespace wayfolio::text {

/// The folder of the private fonts: the build tree's when the running program lies in it, else ../share/wayfolio/fonts beside the
/// program, else the one this library was installed with. Never taken from the environment.
std::string font_folder();

}  // namespace wayfolio::text
