#pragma once
#include <string>

namespace wayfolio::input {

/// The bytes that base64 text stands for (RFC 4648 clause 4). The text must be base64 without white space: the readers see to that.
std::string decoded_base64(const std::string& text);

}  // namespace wayfolio::input
