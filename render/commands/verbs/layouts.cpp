#include "commands/command.hpp"
#include "files/write_file.hpp"
#include "layouts/layout.hpp"

#include <CLI/App.hpp>
#include <fmt/core.h>

namespace wayfolio::commands {

namespace {

ExitCode list_layouts() {
    std::string text;
    for (const std::string& name : layouts::shipped_layouts())
        text += fmt::format("{:<12} {}\n", name, layouts::read_layout(name, "").title);
    files::write_file("-", text);
    return ExitCode::Fine;
}

}  // namespace

void add_layouts(CLI::App& program, Command& chosen) {
    CLI::App* verb = program.add_subcommand("layouts", "the layouts that come with the program");
    verb->footer("wayfolio layouts");
    verb->callback([&chosen] { chosen = {[](const Console&) { return list_layouts(); }, FaultsAs::Messages}; });
}

}  // namespace wayfolio::commands
