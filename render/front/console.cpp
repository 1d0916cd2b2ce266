#include "front/console.hpp"

#include "input/encoding.hpp"

#include <fmt/core.h>

#include <cstdio>
#include <unistd.h>

namespace wayfolio::front {

namespace {

constexpr std::string_view clear_line = "\r\x1b[K";

/// Where standard error is full or closed nobody can be told, and the exit code must still say what happened.
void put_on_errors(std::string_view text) {
    std::fwrite(text.data(), 1, text.size(), stderr);
    std::fflush(stderr);
}

}  // namespace

Console this_console(const char* no_color) {
    const bool errors_on_terminal = ::isatty(STDERR_FILENO) == 1;
    const bool colour_unwanted = no_color != nullptr && *no_color != '\0';
    return {.colour = errors_on_terminal && !colour_unwanted,
            .progress = errors_on_terminal,
            .output_is_terminal = ::isatty(STDOUT_FILENO) == 1};
}

std::string toned(const Console& console, Tone tone, std::string_view text) {
    if (!console.colour || tone == Tone::Plain) return std::string(text);
    return fmt::format("\x1b[{}m{}\x1b[0m", tone == Tone::Error ? "1;31" : "1;33", text);
}

void tell(std::string_view line) { put_on_errors(input::printable(line) + "\n"); }

void tell_of(const Console& console, Tone tone, std::string_view word, std::string_view line) {
    put_on_errors(fmt::format("{} {}\n", toned(console, tone, word), input::printable(line)));
}

bool print(std::string_view text) {
    return std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0;
}

void show_progress(const Console& console, std::size_t step, std::size_t of, std::string_view what) {
    if (!console.progress) return;
    put_on_errors(fmt::format("{}{} of {}: {}", clear_line, step, of, input::printable(what)));
}

void end_progress(const Console& console) {
    if (console.progress) put_on_errors(clear_line);
}

}  // namespace wayfolio::front
