#pragma once
#include <map>
#include <string>

namespace wayfolio::output {

/// Objects of a PDF as they are written, by object number: {12, "<</S /P>>"}. Text is made where there are thousands of them.
using ObjectTexts = std::map<int, std::string>;

}  // namespace wayfolio::output
