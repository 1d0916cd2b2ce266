#include "commands/process.hpp"

#include "commands/command.hpp"
#include "commands/inputs.hpp"
#include "front/evaluate_verb.hpp"
#include "front/own_command.hpp"

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <fmt/core.h>

namespace wayfolio::commands {

namespace {

std::vector<std::string> command_names(const CLI::App& program) {
    std::vector<std::string> names;
    for (const CLI::App* verb : program.get_subcommands({})) names.push_back(verb->get_name());
    return names;
}

std::vector<std::string> option_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::Option* option : app.get_options())
        for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
    return names;
}

/// The words that nothing took: a misspelt option, or one file too many. After "--" all words are files.
void refuse_extras(const CLI::App& verb, std::vector<std::string> extras) {
    std::erase(extras, "--");
    for (const std::string& word : extras) {
        if (!word.starts_with('-') || word == "-") continue;
        const std::string option = word.substr(0, word.find('='));
        throw UsageError(fmt::format("{}: no such option {}{}", verb.get_name(), option, did_you_mean(option, option_names(verb))));
    }
    if (!extras.empty()) throw UsageError(fmt::format("{}: one word too many: {}", verb.get_name(), extras.front()));
}

void describe(CLI::App& program, Command& chosen) {
    program.set_help_flag();
    program.allow_extras();
    program.require_subcommand(0, 1);  // or a file whose name is that of a command would be taken for a second one
    add_plan(program, chosen);
    add_gather(program, chosen);
    add_facts(program, chosen);
    add_report(program, chosen);
    add_figure(program, chosen);
    front::add_evaluate(program, chosen);
    add_check(program, chosen);
    add_table(program, chosen);
    add_compensation(program, chosen);
    add_schema(program, chosen);
    add_layouts(program, chosen);
    add_record(program, chosen);
    add_verify(program, chosen);
    add_redraw(program, chosen);
    add_conformance(program, chosen);
    add_catalogue(program, chosen);
    add_history(program, chosen);
    add_compare(program, chosen);
    add_certificate(program, chosen);
    add_batch(program, chosen);
    add_preview(program, chosen);
    add_serve(program, chosen);
    for (CLI::App* verb : program.get_subcommands({})) {
        verb->set_help_flag();
        verb->add_flag("-h,--help")->description("this help");
        verb->allow_extras();
    }
    program.add_flag("-h,--help")->description("this help");
    program.add_flag("--version")->description("the program's version");
}

}  // namespace

Command read_arguments(int count, const char* const* words) {
    CLI::App program("Evaluates the result document (JSON) of a machine calibration and writes the report for the customer.",
                     "wayfolio");
    Command chosen;
    describe(program, chosen);
    program.parse(count, words);

    const std::vector<CLI::App*> verbs = program.get_subcommands();
    if (!verbs.empty()) {
        if (verbs.front()->get_option("--help")->count() > 0) return front::showing(command_help(*verbs.front()));
        refuse_extras(*verbs.front(), program.remaining(/*recurse=*/true));
        return chosen;
    }
    if (program.get_option("--help")->count() > 0) return front::showing(program_help(program));
    if (program.get_option("--version")->count() > 0) return front::showing_version();
    const std::vector<std::string> unknown = program.remaining();
    if (unknown.empty()) throw UsageError("no command given");
    if (unknown.front().starts_with('-'))
        throw UsageError(fmt::format("no such option {}{}", unknown.front(), did_you_mean(unknown.front(), option_names(program))));
    throw UsageError(fmt::format("no such command {}{}", unknown.front(), did_you_mean(unknown.front(), command_names(program))));
}

}  // namespace wayfolio::commands
