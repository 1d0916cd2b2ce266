#pragma once
#include <string>

namespace wayfolio::output {

/// An ICC version 4 display profile of sRGB (IEC 61966-2-1), written by the rules of ICC.1:2010, for PDF output intents.
std::string srgb_profile();

}  // namespace wayfolio::output
