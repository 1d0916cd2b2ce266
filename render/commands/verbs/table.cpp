#include "commands/inputs.hpp"
#include "evaluate/written/readings_table.hpp"

#include <CLI/App.hpp>

#include <memory>

namespace wayfolio::commands {

namespace {

struct TableOptions {
    std::string result, series, output;
};

ExitCode table(const TableOptions& options, const Console& console) {
    require_output(options.output, {options.result});
    const auto [document, evaluation] = read_and_evaluate(options.result, console);
    if (options.series.empty()) throw UsageError("no series given: give --series ID, an id of the document");
    const evaluate::SeriesEvaluation& series = series_called(evaluation, options.series);
    write_output(options.output, evaluate::readings_table(*document::find_series(document, series.id), series), document.files);
    return ExitCode::Fine;
}

}  // namespace

void add_table(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<TableOptions>();
    CLI::App* verb = program.add_subcommand("table", "readings and evaluated values of one series as CSV, for a spreadsheet");
    verb->footer("wayfolio table K-2041.json --series x-exx -o x-exx.csv");
    verb->add_option("RESULT.json", options->result, "the result document, or - for standard input");
    verb->add_option("--series", options->series, "id of the series")->type_name("ID");
    verb->add_option("-o,--output", options->output, "output file, or - for standard output")->type_name("OUT.csv");
    verb->callback([&chosen, options] {
        chosen = {[options](const Console& console) { return table(*options, console); }, FaultsAs::Messages};
    });
}

}  // namespace wayfolio::commands
