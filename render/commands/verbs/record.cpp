#include "archive/record/record.hpp"
#include "commands/inputs.hpp"
#include "input/data_folder.hpp"

#include <CLI/App.hpp>
#include <fmt/core.h>

#include <memory>

namespace wayfolio::commands {

namespace {

struct RecordOptions {
    std::string result, folder, layout = "report", paper;
};

ExitCode record(const RecordOptions& options, const Console& console) {
    if (options.folder.empty() || options.folder == "-") throw UsageError("a record is a folder: give -o DIR");
    require_outside_records(options.folder);
    const layouts::Layout layout = layouts::read_layout(options.layout, options.paper);
    const auto [document, evaluation] = read_and_evaluate(options.result, console);
    const text::Shaper shaper(input::data_folder() / "fonts");
    const auto revision = archive::write_record({document, evaluation, layout, shaper}, options.folder, [](std::string_view) {});
    tell(fmt::format("{} written", revision.string()));
    return ExitCode::Fine;
}

}  // namespace

void add_record(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<RecordOptions>();
    CLI::App* verb =
        program.add_subcommand("record", "write the record of a job: document, report, figures, numbers and fonts in one folder, to keep");
    verb->footer("wayfolio record K-2041.json -o K-2041");
    verb->add_option("RESULT.json", options->result, "the result document, or - for standard input");
    verb->add_option("-o,--output", options->folder, "folder of the record; an existing record gets another revision")->type_name("DIR");
    verb->add_option("--layout", options->layout, "a shipped layout (see wayfolio layouts) or a layout file of your own")
        ->type_name("NAME|FILE");
    verb->add_option("--paper", options->paper, "paper size (default: the layout's)")
        ->type_name("A4|Letter")
        ->check(one_of("paper", {"A4", "Letter"}));
    verb->callback([&chosen, options] {
        chosen = {[options](const Console& console) { return record(*options, console); }, FaultsAs::Messages};
    });
}

}  // namespace wayfolio::commands
