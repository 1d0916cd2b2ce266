#pragma once
#include <string>
#include <string_view>

namespace wayfolio::input {

/// UTF-8 text made safe for XML content and double-quoted attributes; characters that XML 1.0 forbids become spaces.
std::string xml_text(std::string_view text);

}  // namespace wayfolio::input
