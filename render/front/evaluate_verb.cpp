#include "front/evaluate_verb.hpp"

#include "evaluate/written/evaluation_json.hpp"
#include "files/write_file.hpp"
#include "front/evaluated.hpp"

#include <CLI/App.hpp>

#include <memory>
#include <thread>

namespace wayfolio::front {

namespace {

struct EvaluateOptions {
    std::string result;
    bool fail_on_outside = false;
};

ExitCode evaluate_command(const EvaluateOptions& options, const Console& console) {
    const std::size_t processors = std::thread::hardware_concurrency();
    const auto [document, evaluation] = read_and_evaluate(options.result, console, processors);
    require_no_input("-", document.files);
    files::write_file("-", evaluate::evaluation_json(document, evaluation, processors));
    return options.fail_on_outside && any_outside(evaluation) ? ExitCode::Failed : ExitCode::Fine;
}

}  // namespace

void add_evaluate(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<EvaluateOptions>();
    CLI::App* verb = program.add_subcommand("evaluate", "every evaluated number as JSON, to standard output");
    verb->footer("wayfolio evaluate K-2041.json > evaluation.json");
    verb->add_option("RESULT.json", options->result, "the result document, or - for standard input");
    verb->add_flag("--fail-on-outside", options->fail_on_outside, "exit 1 when a value is outside its limit or not accepted");
    verb->callback([&chosen, options] {
        chosen = {[options](const Console& console) { return evaluate_command(*options, console); }, FaultsAs::Messages};
    });
}

}  // namespace wayfolio::front
