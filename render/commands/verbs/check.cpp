#include "commands/command.hpp"
#include "commands/inputs.hpp"
#include "evaluate/review/site/findings.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "produce/logo_fault.hpp"
#include "produce/unset_text.hpp"
#include "document/read_document.hpp"
#include "input/data_folder.hpp"

#include <CLI/App.hpp>

#include <memory>

namespace wayfolio::commands {

namespace {

struct CheckOptions {
    std::string result;
    bool json = false, all = false, fail_on_findings = false;
};

/// On a terminal the answer for the site; a file or another program gets all of it.
std::string findings_for(const CheckOptions& options, const Console& console, const evaluate::Findings& found) {
    if (options.json) return evaluate::findings_json(found);
    return console.output_is_terminal && !options.all ? evaluate::site_text(found) : evaluate::findings_text(found);
}

ExitCode check(const CheckOptions& options, const Console& console) {
    require_input(options.result);
    const text::Shaper shaper(input::data_folder() / "fonts");
    const document::Document document = document::read_document(std::filesystem::path(options.result));
    // A report would refuse them: better said while the document is still at hand.
    std::vector<input::Problem> undrawn = produce::unset_texts(document, shaper);
    for (input::Problem& fault : produce::logo_faults(document)) undrawn.push_back(std::move(fault));
    if (!undrawn.empty()) throw input::InputRejected(std::move(undrawn));
    const evaluate::Findings found = evaluate::findings(document, evaluate::evaluate(document));
    write_output("-", findings_for(options, console, found), document.files);
    return options.fail_on_findings && evaluate::open_at_machine(found.before_leaving) ? ExitCode::Failed : ExitCode::Fine;
}

}  // namespace

void add_check(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<CheckOptions>();
    CLI::App* verb = program.add_subcommand("check", "what is left to do at the machine; all faults, warnings and missing entries");
    verb->footer("wayfolio check K-2041.json");
    verb->add_option("RESULT.json", options->result, "the result document, or - for standard input");
    verb->add_flag("--all", options->all, "show everything on a terminal too, not only the ten lines for the site");
    verb->add_flag("--json", options->json, "write JSON, faults included");
    verb->add_flag("--fail-on-findings", options->fail_on_findings, "exit 1 when anything is left to do at the machine");
    verb->callback([&chosen, options] {
        chosen = {[options](const Console& console) { return check(*options, console); },
                  options->json ? FaultsAs::Json : FaultsAs::Listing};
    });
}

}  // namespace wayfolio::commands
