#include "certificate/certificate.hpp"
#include "commands/inputs.hpp"

#include <CLI/App.hpp>
#include <fmt/core.h>

#include <memory>

namespace wayfolio::commands {

namespace {

struct CertificateOptions {
    std::string result, output;
};

ExitCode certificate(const CertificateOptions& options, const Console& console) {
    require_input(options.result);
    require_output(options.output, {options.result});
    const document::Document document = document_of(options.result);
    const evaluate::Evaluation evaluation = evaluate::evaluate(document);
    tell_warnings(document, evaluation, console);
    const certificate::Certificate draft = certificate::certificate_draft(document, evaluation);
    write_output(options.output, draft.xml, document.files);
    for (const certificate::Missing& one : draft.missing)
        tell_of(console, Tone::Warning, "warning:",
                fmt::format("{}: {}: missing for a certificate: {}", document.file, one.pointer, one.what));
    return ExitCode::Fine;
}

}  // namespace

void add_certificate(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<CertificateOptions>();
    CLI::App* verb = program.add_subcommand(
        "certificate", "write the draft of a machine-readable certificate (DCC, XML), without signature; say what is missing");
    verb->footer("wayfolio certificate K-2041.json -o K-2041.xml");
    verb->add_option("RESULT.json|PDF|DIR", options->result,
                     "a result document, a PDF that this program made, or a record; - for standard input");
    verb->add_option("-o,--output", options->output, "output file, or - for standard output")->type_name("OUT.xml");
    verb->callback([&chosen, options] {
        chosen = {[options](const Console& console) { return certificate(*options, console); }, FaultsAs::Messages};
    });
}

}  // namespace wayfolio::commands
