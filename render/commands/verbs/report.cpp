#include "commands/inputs.hpp"
#include "produce/produce.hpp"
#include "input/data_folder.hpp"

#include <CLI/App.hpp>

#include <memory>

namespace wayfolio::commands {

namespace {

struct ReportOptions {
    std::string result, output, layout = "report", paper;
    bool fail_on_outside = false;
};

ExitCode report(const ReportOptions& options, const Console& console) {
    require_output(options.output, {options.result, options.layout});
    require_no_terminal(options.output, console);
    const text::Shaper shaper(input::data_folder() / "fonts");  // first: its fonts open while the rest is read
    const layouts::Layout layout = layouts::read_layout(options.layout, options.paper);
    const auto [document, evaluation] = read_and_evaluate(options.result, console);
    write_output(options.output, produce::report_pdf({document, evaluation, layout, shaper}), files_read(document, layout));
    return options.fail_on_outside && any_outside(evaluation) ? ExitCode::Failed : ExitCode::Fine;
}

}  // namespace

void add_report(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<ReportOptions>();
    CLI::App* verb = program.add_subcommand("report", "the whole report as PDF");
    verb->footer("wayfolio report K-2041.json -o K-2041.pdf --paper Letter");
    verb->add_option("RESULT.json", options->result, "the result document, or - for standard input");
    verb->add_option("-o,--output", options->output, "output file, or - for standard output")->type_name("OUT.pdf");
    verb->add_option("--layout", options->layout, "a shipped layout (see wayfolio layouts) or a layout file of your own")
        ->type_name("NAME|FILE");
    verb->add_option("--paper", options->paper, "paper size (default: the layout's)")
        ->type_name("A4|Letter")
        ->check(one_of("paper", {"A4", "Letter"}));
    verb->add_flag("--fail-on-outside", options->fail_on_outside, "exit 1 when a value is outside its limit or not accepted");
    verb->callback([&chosen, options] {
        chosen = {[options](const Console& console) { return report(*options, console); }, FaultsAs::Messages};
    });
}

}  // namespace wayfolio::commands
