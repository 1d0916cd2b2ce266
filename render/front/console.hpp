#pragma once
#include <cstddef>
#include <string>
#include <string_view>

/// What the program says, and where.
namespace wayfolio::front {

/// What the standard streams are, found out once in main.
struct Console {
    bool colour = false;              ///< standard error is a terminal and NO_COLOR is not set
    bool progress = false;            ///< standard error is a terminal
    bool output_is_terminal = false;  ///< standard output is a terminal
};

/// @param no_color the value of the environment variable NO_COLOR, or nullptr (https://no-color.org: set and not empty switches colour off)
Console this_console(const char* no_color);

enum class Tone { Plain, Error, Warning };

/// `text` with the tone's colour where the console shows colour.
std::string toned(const Console& console, Tone tone, std::string_view text);

/// Writes one line to standard error; what stands in it from outside is printed on that line (input::printable).
void tell(std::string_view line);
/// The same after a word in colour.
void tell_of(const Console& console, Tone tone, std::string_view word, std::string_view line);

/// Writes `text` to standard output; false where that failed.
[[nodiscard]] bool print(std::string_view text);

/// Shows "step n of m" on a terminal, over the last one; nothing elsewhere.
void show_progress(const Console& console, std::size_t step, std::size_t of, std::string_view what);
/// Takes the progress line away.
void end_progress(const Console& console);

}  // namespace wayfolio::front
