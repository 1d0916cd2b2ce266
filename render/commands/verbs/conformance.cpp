#include "conformance/conformance.hpp"

#include "commands/outputs.hpp"
#include "evaluate/written/json_text.hpp"
#include "input/encoding.hpp"
#include "input/read_file.hpp"

#include <CLI/App.hpp>
#include <fmt/core.h>

#include <algorithm>
#include <memory>

namespace wayfolio::commands {

namespace {

using conformance::Fault;

struct ConformanceOptions {
    std::string pdf;
    bool json = false;
};

std::string as_text(const std::string& file, const std::vector<Fault>& faults) {
    const auto rules = conformance::rules();
    if (faults.empty()) return fmt::format("{}: keeps all {} rules\n", input::printable(file), rules.size());
    std::string text = fmt::format("{}: {} {}\n", input::printable(file), faults.size(), faults.size() == 1 ? "fault" : "faults");
    for (const Fault& fault : faults) {
        const auto rule = std::ranges::find(rules, fault.rule, &conformance::Rule::name);
        text += fmt::format("  {} ({}): {}: {}\n", fault.rule, rule == rules.end() ? "" : rule->source, input::printable(fault.where),
                            input::printable(fault.what));
    }
    return text;
}

std::string as_json(const std::string& file, const std::vector<Fault>& faults) {
    evaluate::Json json{{"format", "wayfolio-conformance"}, {"version", 1}, {"file", file}, {"rules", conformance::rules().size()}};
    json["faults"] = evaluate::Json::array();
    for (const Fault& fault : faults) json["faults"].push_back({{"rule", fault.rule}, {"where", fault.where}, {"what", fault.what}});
    return evaluate::to_text(json);
}

ExitCode check_pdfs(const ConformanceOptions& options) {
    if (options.pdf.empty()) throw UsageError("nothing to check: name a PDF, or - for standard input");
    const std::vector<Fault> faults = conformance::faults_of(input::read_file(options.pdf));
    write_output("-", options.json ? as_json(options.pdf, faults) : as_text(options.pdf, faults), {options.pdf});
    return faults.empty() ? ExitCode::Fine : ExitCode::Failed;
}

}  // namespace

void add_conformance(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<ConformanceOptions>();
    CLI::App* verb = program.add_subcommand(
        "conformance", "check a PDF against the rules of archival and accessible PDF; exit 1 if it breaks one");
    verb->footer("wayfolio conformance K-2041.pdf");
    verb->add_option("PDF", options->pdf, "the PDF, or - for standard input");
    verb->add_flag("--json", options->json, "write JSON");
    verb->callback([&chosen, options] { chosen = {[options](const Console&) { return check_pdfs(*options); }, FaultsAs::Messages}; });
}

}  // namespace wayfolio::commands
