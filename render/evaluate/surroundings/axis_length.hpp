#pragma once
#include "document/document.hpp"

namespace wayfolio::evaluate {

/// The travel of a linear axis in m: as the machine states it, else what its series cover. Nothing for a rotary axis or an axis
/// without either.
std::optional<double> axis_length_m(const document::Document& document, std::string_view axis);

}  // namespace wayfolio::evaluate
