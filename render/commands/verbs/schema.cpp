#include "archive/verify/verify.hpp"
#include "catalogue/history.hpp"
#include "commands/inputs.hpp"
#include "compare/comparison.hpp"
#include "conformance/conformance.hpp"
#include "document/facts.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "gather/mapping/mapping.hpp"
#include "layouts/layout.hpp"
#include "output/output.hpp"

#include <CLI/App.hpp>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <memory>

namespace wayfolio::commands {

namespace {

struct NamedSchema {
    std::string_view name;
    std::string_view (*text)();
};

/// What a user writes first, then what the program prints.
constexpr NamedSchema schemas[] = {
    {"result", document::document_schema},
    {"facts", document::facts_schema},
    {"layout", layouts::layout_schema},
    {"mapping", gather::mapping_schema},
    {"evaluation", evaluate::evaluation_schema},
    {"findings", evaluate::findings_schema},
    {"comparison", compare::comparison_schema},
    {"catalogue", catalogue::catalogue_schema},
    {"history", catalogue::history_schema},
    {"verification", archive::verification_schema},
    {"conformance", conformance::conformance_schema},
};

std::vector<std::string> schema_names() {
    std::vector<std::string> names;
    for (const NamedSchema& schema : schemas) names.emplace_back(schema.name);
    return names;
}

std::string_view schema_called(const std::string& name) {
    for (const NamedSchema& schema : schemas)
        if (schema.name == name) return schema.text();
    const auto names = schema_names();
    if (name.empty()) throw UsageError(fmt::format("no schema named; there are: {}", fmt::join(names, ", ")));
    throw UsageError(fmt::format("no schema is called \"{}\"{}; there are: {}", name, did_you_mean(name, names), fmt::join(names, ", ")));
}

}  // namespace

void add_schema(CLI::App& program, Command& chosen) {
    const auto name = std::make_shared<std::string>();
    CLI::App* verb = program.add_subcommand("schema", "the JSON Schema of a file that is read or written: result, layout, evaluation ...");
    verb->footer("wayfolio schema result > result.schema.json");
    verb->add_option("NAME", *name, fmt::format("one of {}", fmt::join(schema_names(), ", ")));
    verb->callback([&chosen, name] {
        const auto run = [name](const Console&) {
            output::write_file("-", schema_called(*name));
            return ExitCode::Fine;
        };
        chosen = {run, FaultsAs::Messages};
    });
}

}  // namespace wayfolio::commands
