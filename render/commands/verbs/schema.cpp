#include "commands/inputs.hpp"
#include "compare/comparison.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "layouts/layout.hpp"
#include "output/output.hpp"
#include "document/read_document.hpp"

#include <CLI/App.hpp>
#include <fmt/core.h>

#include <memory>

namespace wayfolio::commands {

namespace {

std::string_view schema_called(const std::string& name) {
    if (name == "result") return document::document_schema();
    if (name == "evaluation") return evaluate::evaluation_schema();
    if (name == "findings") return evaluate::findings_schema();
    if (name == "comparison") return compare::comparison_schema();
    if (name == "layout") return layouts::layout_schema();
    if (name.empty()) throw UsageError("no schema named: give result, evaluation, findings, comparison or layout");
    throw UsageError(fmt::format("no schema is called \"{}\"{}; there are: result, evaluation, findings, comparison, layout", name,
                                 did_you_mean(name, {"result", "evaluation", "findings", "comparison", "layout"})));
}

}  // namespace

void add_schema(CLI::App& program, Command& chosen) {
    const auto name = std::make_shared<std::string>();
    CLI::App* verb =
        program.add_subcommand("schema", "the JSON Schema of a file format: result, evaluation, findings, comparison or layout");
    verb->footer("wayfolio schema result > result.schema.json");
    verb->add_option("NAME", *name, "result, evaluation, findings, comparison or layout");
    verb->callback([&chosen, name] {
        const auto run = [name](const Console&) {
            output::write_file("-", schema_called(*name));
            return ExitCode::Fine;
        };
        chosen = {run, FaultsAs::Messages};
    });
}

}  // namespace wayfolio::commands
