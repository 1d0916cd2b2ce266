#include "commands/command.hpp"

#include <CLI/App.hpp>
#include <fmt/core.h>

#include <array>
#include <utility>

namespace wayfolio::commands {

namespace {

constexpr std::string_view examples =
    "Examples:\n"
    "  wayfolio check K-2041.json                       what is left to do at the machine? what is missing?\n"
    "  wayfolio report K-2041.json -o K-2041.pdf        the whole report\n"
    "  wayfolio figure K-2041.json --series x-exx -o x.svg\n"
    "  wayfolio evaluate K-2041.json > evaluation.json  every number, for other programs\n";

constexpr std::array<std::pair<int, std::string_view>, 11> exit_codes{{
    {0, "success; verdicts do not count"},
    {1,
     "finished, but something failed; with --fail-on-outside also: a value is outside its limit or not accepted; with --fail-on-findings: "
     "something "
     "is left to do at the machine"},
    {2, "the command line is wrong"},
    {65, "the input is faulty (every fault is listed)"},
    {66, "an input file is missing or cannot be opened"},
    {70, "a fault of this program"},
    {71, "not enough memory"},
    {73, "an output file cannot be created"},
    {74, "reading or writing failed"},
    {75, "some jobs of a batch failed that may succeed if they are tried again"},
    {143, "a batch was stopped by a signal; the same command goes on"},
}};

std::string positional_words(const CLI::App& command) {
    std::string words;
    for (const CLI::Option* option : command.get_options())
        if (option->get_positional()) words += " " + option->get_name(/*positional=*/true);
    return words;
}

std::string option_line(const CLI::Option& option) {
    std::string left =
        option.get_positional() ? option.get_name(/*positional=*/true) : option.get_name(/*positional=*/false, /*all_options=*/true);
    if (!option.get_positional() && option.get_expected_max() > 0) {
        const std::string type = option.get_type_name();
        left += " " + type.substr(0, type.find(':'));  // CLI11 adds the checks of the value after a colon
    }
    return fmt::format("  {:<26} {}\n", left, option.get_description());
}

}  // namespace

std::string program_help(const CLI::App& program) {
    std::string text = fmt::format("{}\n{}\n\nUsage: wayfolio COMMAND [arguments]\n\nCommands:\n", examples, program.get_description());
    for (const CLI::App* command : program.get_subcommands({}))
        text += fmt::format("  {:<26} {}\n", command->get_name() + positional_words(*command), command->get_description());
    text += "\nOptions:\n";
    for (const CLI::Option* option : program.get_options()) text += option_line(*option);
    text += "\nExit codes:\n";
    for (const auto& [code, meaning] : exit_codes) text += fmt::format("  {:>2}  {}\n", code, meaning);
    return text + "\nIn place of a file name, - is standard input or output. wayfolio COMMAND --help explains one command.\n"
                  "The whole reference is in the manual: man wayfolio, and the pages that it names.\n";
}

std::string command_help(const CLI::App& command) {
    std::string text = fmt::format("Example:\n  {}\n\n{}\n\nUsage: wayfolio {}{} [options]\n", command.get_footer(),
                                   command.get_description(), command.get_name(), positional_words(command));
    for (const CLI::Option* option : command.get_options())
        if (option->get_positional()) text += option_line(*option);
    text += "\nOptions:\n";
    for (const CLI::Option* option : command.get_options())
        if (!option->get_positional()) text += option_line(*option);
    return text;
}

}  // namespace wayfolio::commands
