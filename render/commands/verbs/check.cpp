#include "commands/command.hpp"
#include "commands/inputs.hpp"
#include "evaluate/review/findings.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "produce/unset_text.hpp"
#include "output/output.hpp"
#include "document/read_document.hpp"
#include "input/data_folder.hpp"

#include <CLI/App.hpp>

#include <memory>

namespace wayfolio::commands {

namespace {

struct CheckOptions {
    std::string result;
    bool json = false;
};

ExitCode check(const CheckOptions& options) {
    require_input(options.result);
    const text::Shaper shaper(input::data_folder() / "fonts");
    const document::Document document = document::read_document(std::filesystem::path(options.result));
    // A report would refuse them: better said while the document is still at hand.
    if (std::vector<input::Problem> unset = produce::unset_texts(document, shaper); !unset.empty())
        throw input::InputRejected(std::move(unset));
    const evaluate::Findings found = evaluate::findings(document, evaluate::evaluate(document));
    output::write_file("-", options.json ? evaluate::findings_json(found) : evaluate::findings_text(found));
    return ExitCode::Fine;
}

}  // namespace

void add_check(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<CheckOptions>();
    CLI::App* verb = program.add_subcommand("check", "every fault and warning, what the data support, what is lacking");
    verb->footer("wayfolio check K-2041.json");
    verb->add_option("RESULT.json", options->result, "the result document, or - for standard input");
    verb->add_flag("--json", options->json, "the same for other programs, faults included");
    verb->callback([&chosen, options] {
        chosen = {[options](const Console&) { return check(*options); }, options->json ? FaultsAs::Json : FaultsAs::Listing};
    });
}

}  // namespace wayfolio::commands
