#pragma once
#include "front/command.hpp"

#include <string>

namespace CLI {
class App;
}

namespace wayfolio::commands {

// What every verb speaks with.
using front::Command;
using front::Console;
using front::end_progress;
using front::ExitCode;
using front::FaultsAs;
using front::print;
using front::show_progress;
using front::tell;
using front::tell_of;
using front::Tone;
using front::UsageError;

// Each adds one verb to the program; when that verb is given, it sets `chosen`.
void add_report(CLI::App& program, Command& chosen);
void add_figure(CLI::App& program, Command& chosen);
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
