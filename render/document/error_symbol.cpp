#include "document/error_symbol.hpp"

namespace wayfolio::document {
namespace {

constexpr std::string_view linear_axes = "XYZUVW";
constexpr std::string_view rotary_axes = "ABC";

/// The linear direction an axis runs along: U V W lie along X Y Z (ISO 841).
char linear_direction(char axis) {
    const auto secondary = std::string_view("UVW").find(axis);
    return secondary == std::string_view::npos ? axis : "XYZ"[secondary];
}

/// The linear axis a rotation letter turns about: A about X, B about Y, C about Z (ISO 841).
char rotation_axis(char letter) { return static_cast<char>('X' + (letter - 'A')); }

}  // namespace

bool ErrorSymbol::axis_is_rotary() const { return rotary_axes.find(axis[0]) != std::string_view::npos; }

ErrorKind ErrorSymbol::kind() const {
    const bool rotation = rotary_axes.find(direction) != std::string_view::npos;
    if (axis_is_rotary()) return rotation && direction == axis[0] ? ErrorKind::Positioning
                               : rotation                         ? ErrorKind::Angle
                                                                  : ErrorKind::Straightness;
    if (rotation) return ErrorKind::Angle;
    return direction == linear_direction(axis[0]) ? ErrorKind::Positioning : ErrorKind::Straightness;
}

std::optional<ErrorSymbol> error_symbol(std::string_view text) {
    if (text.size() != 3 || text[0] != 'E') return std::nullopt;
    if (std::string_view("XYZABC").find(text[1]) == std::string_view::npos) return std::nullopt;
    const bool known_axis = linear_axes.find(text[2]) != std::string_view::npos || rotary_axes.find(text[2]) != std::string_view::npos;
    if (!known_axis) return std::nullopt;
    return ErrorSymbol{text[1], std::string(1, text[2])};
}

AngleName angle_name(const ErrorSymbol& symbol, std::string_view vertical) {
    if (symbol.kind() != ErrorKind::Angle || symbol.axis_is_rotary()) return AngleName::Unknown;
    const char about = rotation_axis(symbol.direction);
    const char along = linear_direction(symbol.axis[0]);
    if (about == along) return AngleName::Roll;
    if (vertical.empty()) return AngleName::Unknown;
    // Of a vertical axis both cross rotations are about horizontal axes: neither is a yaw.
    if (vertical[0] == along) return AngleName::Unknown;
    return vertical[0] == about ? AngleName::Yaw : AngleName::Pitch;
}

}  // namespace wayfolio::document
