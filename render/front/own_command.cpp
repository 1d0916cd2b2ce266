#include "front/own_command.hpp"

#include "files/write_file.hpp"
#include "front/evaluate_verb.hpp"
#include "front/process.hpp"
#include "units/version.hpp"

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <fmt/core.h>

#include <string>
#include <utility>

namespace wayfolio::front {

namespace {

std::optional<Command> evaluation(int count, const char* const* words) {
    CLI::App program("", "wayfolio");
    Command chosen;
    add_evaluate(program, chosen);
    try {
        program.parse(count, words);
    } catch (const CLI::Error&) {  // a fault, or a question for help: the rest of the program knows all verbs and says more of it
        return std::nullopt;
    }
    return chosen;
}

}  // namespace

Command showing(std::string text) {
    const auto run = [text = std::move(text)](const Console&) {
        files::write_file("-", text);
        return ExitCode::Fine;
    };
    return {run, FaultsAs::Messages};
}

Command showing_version() { return showing(fmt::format("wayfolio {}\n", version())); }

std::optional<Command> own_command(int count, const char* const* words, std::string_view help) {
    const std::string_view first = count > 1 ? words[1] : "";
    if (count == 2 && first == "--version") return showing_version();
    if (count == 2 && (first == "--help" || first == "-h")) return showing(std::string(help));
    if (first == "evaluate") return evaluation(count, words);
    return std::nullopt;
}

}  // namespace wayfolio::front
