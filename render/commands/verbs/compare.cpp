#include "commands/inputs.hpp"
#include "compare/comparison.hpp"
#include "produce/comparison.hpp"
#include "input/data_folder.hpp"

#include <CLI/App.hpp>

#include <memory>

namespace wayfolio::commands {

namespace {

struct CompareOptions {
    std::string was, now, output, layout = "report", paper;
    bool json = false, left_and_found = false;

    [[nodiscard]] compare::Beside beside() const { return left_and_found ? compare::Beside::LeftAndFound : compare::Beside::Same; }
};

/// Both sides, read and evaluated.
struct BothSides {
    document::Document was, now;
    evaluate::Evaluation evaluation_was = evaluate::evaluate(was), evaluation_now = evaluate::evaluate(now);

    [[nodiscard]] FilesRead files_read() const {
        FilesRead read = was.files;
        read.insert(read.end(), now.files.begin(), now.files.end());
        return read;
    }
};

std::string comparison_words(const CompareOptions& options, const BothSides& sides) {
    const compare::Side was{options.was, sides.was, sides.evaluation_was}, now{options.now, sides.now, sides.evaluation_now};
    const compare::Comparison comparison = compare::compare(was, now, options.beside());
    return options.json ? compare::comparison_json(comparison, compare::causes(was, now, comparison))
                        : compare::comparison_text(comparison);
}

ExitCode compare_both(const CompareOptions& options, const Console& console) {
    if (options.was.empty() || options.now.empty()) throw UsageError("give two inputs: OLD NEW");
    if (options.was == "-" && options.now == "-") throw UsageError("only one input can be standard input: name a file for the other");
    if (options.json && !options.output.empty())
        throw UsageError("--json writes JSON and -o writes a PDF: give one of the two");
    if (options.output.empty()) {
        const BothSides sides{document_of(options.was), document_of(options.now)};
        write_output("-", comparison_words(options, sides), sides.files_read());
        return ExitCode::Fine;
    }
    require_output(options.output, {options.was, options.now, options.layout});
    require_no_terminal(options.output, console);
    const layouts::Layout layout = layouts::read_layout(options.layout, options.paper);
    const BothSides sides{document_of(options.was), document_of(options.now)};
    const text::Shaper shaper(input::data_folder() / "fonts");
    FilesRead read = sides.files_read();
    read.insert(read.end(), layout.files.begin(), layout.files.end());
    write_output(options.output, produce::comparison_pdf({.was = sides.was,
                                                                 .now = sides.now,
                                                                 .evaluation_was = sides.evaluation_was,
                                                                 .evaluation_now = sides.evaluation_now,
                                                                 .layout = layout,
                                                                 .shaper = shaper,
                                                                 .beside = options.beside()}), read);
    return ExitCode::Fine;
}

}  // namespace

void add_compare(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<CompareOptions>();
    CLI::App* verb = program.add_subcommand("compare", "what changed between two inputs: data, settings, results against U, verdicts");
    verb->footer("wayfolio compare K-2041-2025.pdf K-2041.json -o changes.pdf");
    verb->add_option("OLD", options->was, "a result document, a PDF that this program made, or a record");
    verb->add_option("NEW", options->now, "the input to compare with it, of any of these kinds");
    verb->add_option("-o,--output", options->output, "output file: a PDF with tables and with old and new curves; without it text")
        ->type_name("OUT.pdf");
    verb->add_option("--layout", options->layout, "layout of the PDF: a shipped layout or a layout file of your own")
        ->type_name("NAME|FILE");
    verb->add_option("--paper", options->paper, "paper size (default: the layout's)")
        ->type_name("A4|Letter")
        ->check(one_of("paper", {"A4", "Letter"}));
    verb->add_flag("--left-and-found", options->left_and_found,
                   "of two visits: compare what OLD left with what NEW found, which is how the machine changed in between");
    verb->add_flag("--json", options->json, "write JSON");
    verb->callback([&chosen, options] {
        chosen = {[options](const Console& console) { return compare_both(*options, console); }, FaultsAs::Messages};
    });
}

}  // namespace wayfolio::commands
