#include "plan/plan_words.hpp"
#include "commands/command.hpp"
#include "commands/inputs.hpp"
#include "commands/outputs.hpp"
#include "input/data_folder.hpp"
#include "plan/sheet.hpp"

#include <CLI/App.hpp>

#include <memory>

namespace wayfolio::commands {
namespace {

struct PlanOptions {
    plan::PlanWords words;
    std::vector<std::string> facts;
    std::string output, sheet, paper;
};

plan::PlanRequest request_of(const PlanOptions& options) {
    try {
        plan::PlanRequest request = plan::request_of(options.words);
        for (const std::string& file : options.facts) request.facts.push_back(gather::facts_file(file));
        return request;
    } catch (const plan::WordsRefused& refused) { throw UsageError(refused.what()); }
}

ExitCode write_plan(const PlanOptions& options) {
    FilesRead read;
    read.insert(read.end(), options.facts.begin(), options.facts.end());
    require_output(options.output, read);
    if (!options.sheet.empty()) require_output(options.sheet, read);
    if (options.sheet == options.output) throw UsageError("--sheet and --output name one file");
    const plan::Planned planned = plan::plan(request_of(options));
    std::string pdf;
    if (!options.sheet.empty()) {
        const text::Shaper shaper(input::data_folder() / "fonts");
        pdf = plan::sheet_pdf(planned, layouts::read_layout("report", options.paper), shaper);
    }
    write_output(options.output, planned.document, read);
    if (!options.sheet.empty()) write_output(options.sheet, pdf, read);
    show_account(options.output, plan::plan_text(planned));
    return ExitCode::Fine;
}

}  // namespace

void add_plan(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<PlanOptions>();
    CLI::App* verb =
        program.add_subcommand("plan", "a job before it starts: an empty document for gather --into, and a sheet to fill by hand");
    verb->footer("wayfolio plan EXX EYX --travel 0:6400 --feed 6000 --dwell 4 -o plan.json --sheet plan.pdf");
    verb->add_option("ERROR...", options->words.errors, "what is measured along one axis, by ISO 230-1: EXX, EYX, EBX ...");
    verb->add_option("--travel", options->words.travel, "what is measured (default: the travel that the facts give the axis)")
        ->type_name("FROM:TO");
    verb->add_option("--unit", options->words.unit, "unit of the travel (default: mm, of rotary axes deg)")
        ->type_name("mm|in|deg")
        ->check(one_of("unit", {"mm", "in", "deg"}));
    verb->add_option("--runs", options->words.runs, "runs in each approach (default: 5)")->type_name("N");
    verb->add_option("--targets", options->words.targets, "number of targets (default: the least that the standard asks for)")
        ->type_name("N");
    verb->add_option("--seed", options->words.seed, "of the random part in the spacing of the targets (default: 1)")->type_name("N");
    verb->add_flag("--one-approach-first", options->words.one_approach_first, "all positive runs before the negative ones, not in turn");
    verb->add_option("--feed", options->words.feed, "feed speed in mm or deg a minute")->type_name("NUMBER");
    verb->add_option("--dwell", options->words.dwell, "seconds at each target")->type_name("SECONDS");
    verb->add_option("--state", options->words.states, "a state of the machine, as as-found; may be repeated: a series for each")
        ->type_name("NAME")
        ->allow_extra_args(false);
    verb->add_option("--facts", options->facts, "what is the same from job to job; may be repeated")
        ->type_name("FACTS.json")
        ->allow_extra_args(false);
    verb->add_option("-o,--output", options->output, "output file, or - for standard output")->type_name("OUT.json");
    verb->add_option("--sheet", options->sheet, "a sheet to fill by hand, too")->type_name("OUT.pdf");
    verb->add_option("--paper", options->paper, "paper size of the sheet (default: A4)")
        ->type_name("A4|Letter")
        ->check(one_of("paper", {"A4", "Letter"}));
    verb->callback([&chosen, options] { chosen = {[options](const Console&) { return write_plan(*options); }, FaultsAs::Messages}; });
}

}  // namespace wayfolio::commands
