#pragma once
#include <string>
#include <string_view>

namespace wayfolio::output {

/// The content of a page with the places of its paths and the beginnings of its texts on a grid of a hundredth of a point, and its colours
/// of a thousandth: Cairo writes six digits, of which the last show nothing at 600 dpi (a dot is 0.12 pt) or in eight bits, and which
/// hardly pack. Places within a text stay as they are: each follows from the one before, and rounding would add up.
std::string with_short_places(std::string_view content);

}  // namespace wayfolio::output
