#include "commands/inputs.hpp"
#include "files/write_file.hpp"
#include "service/answers/schemas.hpp"

#include <CLI/App.hpp>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <memory>

namespace wayfolio::commands {

namespace {

std::vector<std::string> schema_names() {
    std::vector<std::string> names;
    for (const service::NamedSchema& schema : service::schemas()) names.emplace_back(schema.name);
    return names;
}

std::string_view schema_called(const std::string& name) {
    for (const service::NamedSchema& schema : service::schemas())
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
            files::write_file("-", schema_called(*name));
            return ExitCode::Fine;
        };
        chosen = {run, FaultsAs::Messages};
    });
}

}  // namespace wayfolio::commands
