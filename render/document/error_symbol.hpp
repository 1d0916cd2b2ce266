#pragma once
#include <optional>
#include <string>
#include <string_view>

namespace wayfolio::document {

/// What an error symbol measures.
enum class ErrorKind { Positioning, Straightness, Angle };

/// A symbol of ISO 230-1:2012 Annex A [from memory]: "E" + direction of the error + axis of motion,
/// as EXX (positioning of X), EZX (straightness of X in Z), EBX (rotation about Y while X moves), ECC (positioning of rotary axis C).
struct ErrorSymbol {
    char direction = 'X';      ///< X Y Z or A B C
    std::string axis = "X";    ///< X Y Z A B C (U V W also name linear axes by ISO 841)

    [[nodiscard]] std::string text() const { return std::string("E") + direction + axis; }
    [[nodiscard]] ErrorKind kind() const;
    [[nodiscard]] bool axis_is_rotary() const;
    bool operator==(const ErrorSymbol&) const = default;
};

/// The symbol written so, or nothing.
std::optional<ErrorSymbol> error_symbol(std::string_view text);

/// Pitch, yaw, roll and the straightness directions depend on which machine axis is vertical (ISO 841).
enum class AngleName { Pitch, Yaw, Roll, Unknown };
/// Pitch: about the horizontal axis across the motion; yaw: about the vertical; roll: about the axis of motion.
/// `vertical` is "X", "Y" or "Z", empty if the document does not say (then only roll is known).
AngleName angle_name(const ErrorSymbol& symbol, std::string_view vertical);

}  // namespace wayfolio::document
