#pragma once
#include <string_view>

namespace wayfolio::produce {

/// SHA-256 over the sources, schemas and layouts that this program was built from: two builds of one version may say other words.
std::string_view build_digest();

}  // namespace wayfolio::produce
