#include "commands/command.hpp"
#include "input/data_folder.hpp"
#include "input/read_file.hpp"
#include "service/serve.hpp"

#include <fmt/format.h>
#include <CLI/App.hpp>

#include <memory>

namespace wayfolio::commands {
namespace {

struct PreviewOptions {
    std::string result;
    std::uint16_t port = 0;
};

ExitCode preview(const PreviewOptions& options) {
    if (options.result.empty() || options.result == "-")
        throw UsageError("name the file of a result document: it is read again when it is saved");
    (void)input::read_regular_file(options.result);  // what is not there is told now, not in the browser
    service::Settings settings;
    settings.port = options.port;
    settings.previewed = options.result;
    settings.opened = [](const std::string& address) {
        if (!print(fmt::format("{}/?preview\nOpen it in a browser of this machine; Ctrl+C ends it.\n", address)))
            throw service::CannotServe("standard output cannot be written");
    };
    service::serve(settings, text::Shaper(input::data_folder() / "fonts"));
    return ExitCode::Fine;
}

}  // namespace

void add_preview(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<PreviewOptions>();
    CLI::App* verb =
        program.add_subcommand("preview", "show one document in a browser of this machine: faults, figures, pages, again at each save");
    verb->footer("wayfolio preview K-2041.json");
    verb->add_option("RESULT.json", options->result, "the file of a result document");
    verb->add_option("--port", options->port, "of this machine alone (default: any that is free)")->type_name("PORT");
    verb->callback([&chosen, options] { chosen = {[options](const Console&) { return preview(*options); }, FaultsAs::Messages}; });
}

}  // namespace wayfolio::commands
