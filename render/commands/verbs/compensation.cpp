#include "commands/inputs.hpp"
#include "evaluate/written/compensation_text.hpp"

#include <CLI/App.hpp>
#include <fmt/core.h>

#include <charconv>
#include <memory>

namespace wayfolio::commands {

namespace {

struct CompensationOptions {
    std::string result, axis, output;
    std::size_t table = 0;  ///< from 1, in the document's order; 0: not given
};

using evaluate::CompensationEvaluation;
using Tables = std::vector<CompensationEvaluation>;

/// "table 2: axis X from x-exx-left": one line for each table the document asks for.
std::string listing(const Tables& tables) {
    std::string text;
    for (std::size_t i = 0; i < tables.size(); ++i)
        text += fmt::format("{} table {}: axis {} from {}", i == 0 ? "" : ";", i + 1, tables[i].axis, tables[i].series);
    return text;
}

/// The one table that the options leave.
const CompensationEvaluation& chosen_table(const Tables& tables, const CompensationOptions& options) {
    if (tables.empty()) throw UsageError("the document asks for no compensation table (/compensation)");
    if (options.table > tables.size())
        throw UsageError(fmt::format("there is no table {}; the document asks for:{}", options.table, listing(tables)));
    const CompensationEvaluation* found = nullptr;
    for (std::size_t i = 0; i < tables.size(); ++i) {
        if ((options.table != 0 && options.table != i + 1) || (!options.axis.empty() && options.axis != tables[i].axis)) continue;
        if (found) throw UsageError(fmt::format("several tables match: choose one with --axis or --table:{}", listing(tables)));
        found = &tables[i];
    }
    if (!found) throw UsageError(fmt::format("no table of axis {}; the document asks for:{}", options.axis, listing(tables)));
    return *found;
}

/// CLI11 asks for what is wrong with a value; "" if nothing is. What is no number, it tells itself.
std::string fault_of_number(const std::string& given) {
    long long number = 1;
    std::from_chars(given.data(), given.data() + given.size(), number);
    return number < 1 ? "tables are numbered from 1" : std::string();
}

bool wants_json(const std::string& output) {
    if (output.ends_with(".json")) return true;
    if (output.ends_with(".csv") || output == "-") return false;
    throw UsageError(fmt::format("output {}: unknown format; use .csv or .json", output));
}

ExitCode compensation(const CompensationOptions& options, const Console& console) {
    require_output(options.output, {options.result});
    const bool json = wants_json(options.output);
    const auto [document, evaluation] = read_and_evaluate(options.result, console);
    const CompensationEvaluation& table = chosen_table(evaluation.compensation, options);
    if (!table.refused.empty()) {
        for (const std::string& reason : table.refused)
            tell_of(console, Tone::Error, "wayfolio:", fmt::format("no compensation table of axis {}: {}", table.axis, reason));
        return ExitCode::Failed;
    }
    write_output(options.output, json ? evaluate::compensation_json_file(table, document) : evaluate::compensation_csv(table, document),
                 document.files);
    return ExitCode::Fine;
}

}  // namespace

void add_compensation(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<CompensationOptions>();
    CLI::App* verb = program.add_subcommand("compensation", "one compensation table as CSV or JSON, with its sign convention and cautions");
    verb->footer("wayfolio compensation K-2041.json --axis X -o X.csv");
    verb->add_option("RESULT.json", options->result, "the result document, or - for standard input");
    verb->add_option("--axis", options->axis, "the axis, if the document asks for tables of several axes")->type_name("NAME");
    verb->add_option("--table", options->table, "the number of the table in the document, from 1, if an axis has several")
        ->type_name("N")
        ->check(fault_of_number);
    verb->add_option("-o,--output", options->output, "output file: .csv or .json, or - for CSV on standard output")
        ->type_name("OUT.csv|OUT.json");
    verb->callback([&chosen, options] {
        chosen = {[options](const Console& console) { return compensation(*options, console); }, FaultsAs::Messages};
    });
}

}  // namespace wayfolio::commands
