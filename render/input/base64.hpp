#pragma once
#include <string>
#include <string_view>

namespace wayfolio::input {

/// The bytes that base64 text stands for (RFC 4648 clause 4). The text must be base64 without white space: the readers see to that.
std::string decoded_base64(const std::string& text);
/// Bytes as base64 text (RFC 4648 clause 4) on one line.
std::string base64(std::string_view bytes);

}  // namespace wayfolio::input
