#pragma once
#include <exception>
#include <functional>
#include <string>
#include <string_view>

namespace CLI {
class App;
}

namespace wayfolio::commands {

/// Exit codes of the program; 64 and up follow sysexits.h. The texts in exit_codes_text() explain them to users.
enum class ExitCode {
    Fine = 0,
    Failed = 1,
    Usage = 2,
    BadInput = 65,
    InputMissing = 66,
    OurFault = 70,
    OutOfMemory = 71,
    CannotCreate = 73,
    OutputError = 74,
    TryAgain = 75,
    Stopped = 143,  ///< by a signal, cleanly: 128 and the number of SIGTERM
};

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

/// How the faults of an input are shown: as messages on standard error, or as what the command was asked for.
enum class FaultsAs { Messages, Listing, Json };

/// What main runs once the arguments are read.
struct Command {
    std::function<ExitCode(const Console&)> run;
    FaultsAs faults = FaultsAs::Messages;
};

/// The command line asks for what there is not, or too little.
class UsageError : public std::exception {
public:
    explicit UsageError(std::string text) : text_(std::move(text)) {}
    [[nodiscard]] const char* what() const noexcept override { return text_.c_str(); }

private:
    std::string text_;
};

// Each adds one verb to the program; when that verb is given, it sets `chosen`.
void add_report(CLI::App& program, Command& chosen);
void add_figure(CLI::App& program, Command& chosen);
void add_evaluate(CLI::App& program, Command& chosen);
void add_check(CLI::App& program, Command& chosen);
void add_table(CLI::App& program, Command& chosen);
void add_compensation(CLI::App& program, Command& chosen);
void add_schema(CLI::App& program, Command& chosen);
void add_layouts(CLI::App& program, Command& chosen);
void add_record(CLI::App& program, Command& chosen);
void add_verify(CLI::App& program, Command& chosen);
void add_redraw(CLI::App& program, Command& chosen);
void add_conformance(CLI::App& program, Command& chosen);
void add_gather(CLI::App& program, Command& chosen);
void add_facts(CLI::App& program, Command& chosen);
void add_plan(CLI::App& program, Command& chosen);
void add_catalogue(CLI::App& program, Command& chosen);
void add_history(CLI::App& program, Command& chosen);
void add_compare(CLI::App& program, Command& chosen);
void add_certificate(CLI::App& program, Command& chosen);
void add_batch(CLI::App& program, Command& chosen);
void add_preview(CLI::App& program, Command& chosen);
void add_serve(CLI::App& program, Command& chosen);

/// Help of the whole program: examples, commands, exit codes.
std::string program_help(const CLI::App& program);

/// Help of one command: usage, an example (its footer), its options.
std::string command_help(const CLI::App& command);

}  // namespace wayfolio::commands
