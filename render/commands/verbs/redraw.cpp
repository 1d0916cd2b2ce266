#include "archive/verify/unchanged.hpp"
#include "commands/inputs.hpp"
#include "input/data_folder.hpp"

#include <CLI/App.hpp>
#include <fmt/core.h>

#include <algorithm>
#include <memory>

namespace wayfolio::commands {

namespace {

struct RedrawOptions {
    std::string kept, output, layout, paper;
};

/// The same bytes can only be expected of the same versions.
void tell_other_versions(const archive::Making& making, const LibraryVersions& now, const Console& console) {
    for (const LibraryVersion& then : making.versions) {
        const auto found = std::ranges::find(now, then.name, &LibraryVersion::name);
        if (found != now.end() && found->version != then.version)
            tell_of(console, Tone::Warning, "warning:",
                    fmt::format("{}: drawn by {} {}, now {}", making.file, then.name, then.version, found->version));
    }
}

ExitCode redraw(const RedrawOptions& options, const Console& console) {
    if (options.kept.empty()) throw UsageError("nothing to redraw: name a PDF or a record");
    require_output(options.output, {options.kept, options.layout});
    require_no_terminal(options.output, console);
    const archive::Making making = archive::unchanged_from(options.kept);
    std::optional<layouts::Layout> other;
    if (!options.layout.empty()) other = layouts::read_layout(options.layout, options.paper);
    const archive::Remade remade = archive::remake(making, std::move(other), options.paper);
    tell_other_versions(making, produce::versions_in_use(remade.document), console);
    const text::Shaper shaper(input::data_folder() / "fonts");
    write_output(options.output, archive::draw_pdf({remade.document, remade.evaluation, remade.layout, shaper}, making),
                 remade.layout.files);
    return ExitCode::Fine;
}

}  // namespace

void add_redraw(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<RedrawOptions>();
    CLI::App* verb = program.add_subcommand("redraw", "recreate a PDF from the data in it or in a record");
    verb->footer("wayfolio redraw K-2041.pdf -o again.pdf");
    verb->add_option("PDF|DIR", options->kept, "a PDF that this program made, or a record");
    verb->add_option("-o,--output", options->output, "output file, or - for standard output")->type_name("OUT.pdf");
    verb->add_option("--layout", options->layout, "a shipped layout or a layout file (default: the layout that was used)")
        ->type_name("NAME|FILE");
    verb->add_option("--paper", options->paper, "paper size (default: the paper that was used)")
        ->type_name("A4|Letter")
        ->check(one_of("paper", {"A4", "Letter"}));
    verb->callback([&chosen, options] {
        chosen = {[options](const Console& console) { return redraw(*options, console); }, FaultsAs::Messages};
    });
}

}  // namespace wayfolio::commands
