#pragma once
#include "commands/console.hpp"
#include "commands/exit_code.hpp"

#include <exception>
#include <functional>
#include <string>

namespace CLI {
class App;
}

namespace wayfolio::commands {

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
void add_catalogue(CLI::App& program, Command& chosen);
void add_history(CLI::App& program, Command& chosen);
void add_compare(CLI::App& program, Command& chosen);
void add_certificate(CLI::App& program, Command& chosen);

}  // namespace wayfolio::commands
