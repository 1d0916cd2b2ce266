#include "commands/inputs.hpp"
#include "compare/comparison.hpp"
#include "produce/comparison.hpp"
#include "output/output.hpp"
#include "input/data_folder.hpp"

#include <CLI/App.hpp>

#include <memory>

namespace wayfolio::commands {

namespace {

struct CompareOptions {
    std::string was, now, output, layout = "report", paper;
    bool json = false;
};

/// Both sides, read and evaluated.
struct BothSides {
    document::Document was, now;
    evaluate::Evaluation evaluation_was = evaluate::evaluate(was), evaluation_now = evaluate::evaluate(now);
};

std::string comparison_words(const CompareOptions& options, const BothSides& sides) {
    const compare::Comparison comparison =
        compare::compare({options.was, sides.was, sides.evaluation_was}, {options.now, sides.now, sides.evaluation_now});
    return options.json ? compare::comparison_json(comparison) : compare::comparison_text(comparison);
}

ExitCode compare_both(const CompareOptions& options, const Console& console) {
    if (options.was.empty() || options.now.empty()) throw UsageError("two things are compared: name the old and the new");
    if (options.was == "-" && options.now == "-") throw UsageError("standard input can be one of the two only: name a file for the other");
    if (options.json && !options.output.empty())
        throw UsageError("--json goes to standard output and -o makes a PDF: ask for one of the two");
    if (options.output.empty()) {
        output::write_file("-", comparison_words(options, {document_of(options.was), document_of(options.now)}));
        return ExitCode::Fine;
    }
    require_output(options.output, {options.was, options.now, options.layout});
    require_no_terminal(options.output, console);
    const layouts::Layout layout = layouts::read_layout(options.layout, options.paper);
    const BothSides sides{document_of(options.was), document_of(options.now)};
    const text::Shaper shaper(input::data_folder() / "fonts");
    output::write_file(options.output,
                       produce::comparison_pdf({sides.was, sides.now, sides.evaluation_was, sides.evaluation_now, layout, shaper}));
    return ExitCode::Fine;
}

}  // namespace

void add_compare(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<CompareOptions>();
    CLI::App* verb = program.add_subcommand("compare", "what changed from one to the other: data, settings, results against U, verdicts");
    verb->footer("wayfolio compare K-2041-2025.pdf K-2041.json -o changes.pdf");
    verb->add_option("OLD", options->was, "a result document, a PDF that this program made, or a record");
    verb->add_option("NEW", options->now, "the same");
    verb->add_option("-o,--output", options->output, "a PDF with tables and old and new curves, in place of words on the terminal")
        ->type_name("OUT.pdf");
    verb->add_option("--layout", options->layout, "how the PDF looks: a shipped layout or a file of your own")->type_name("NAME|FILE");
    verb->add_option("--paper", options->paper, "in place of the layout's own paper")
        ->type_name("A4|Letter")
        ->check(CLI::IsMember({"A4", "Letter"}));
    verb->add_flag("--json", options->json, "the same for other programs");
    verb->callback([&chosen, options] {
        chosen = {[options](const Console& console) { return compare_both(*options, console); }, FaultsAs::Messages};
    });
}

}  // namespace wayfolio::commands
