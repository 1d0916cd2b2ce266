#include "archive/kept_from.hpp"
#include "commands/inputs.hpp"
#include "compare/comparison.hpp"
#include "input/read_file.hpp"
#include "output/output.hpp"
#include "results/read_document.hpp"

#include <CLI/App.hpp>

#include <memory>

namespace wayfolio::commands {

namespace {

struct CompareOptions {
    std::string was, now;
    bool json = false;
};

bool is_pdf(const std::string& path) {
    std::error_code none;
    return std::filesystem::is_regular_file(path, none) && input::read_file(path).starts_with("%PDF");
}

/// A document as it is, or the one that a PDF or a record carries.
results::Document document_of(const std::string& path) {
    std::error_code none;
    if (!std::filesystem::is_directory(path, none) && !is_pdf(path)) return results::read_document(std::filesystem::path(path));
    results::Document document = archive::remake(archive::kept_from(path)).document;
    document.file = path;
    return document;
}

ExitCode compare_both(const CompareOptions& options) {
    if (options.was.empty() || options.now.empty()) throw UsageError("two things are compared: name the old and the new");
    if (options.was == "-" && options.now == "-") throw UsageError("standard input can be one of the two only: name a file for the other");
    const results::Document was = document_of(options.was), now = document_of(options.now);
    const evaluate::Evaluation evaluation_was = evaluate::evaluate(was), evaluation_now = evaluate::evaluate(now);
    const compare::Comparison comparison = compare::compare({options.was, was, evaluation_was}, {options.now, now, evaluation_now});
    output::write_file("-", options.json ? compare::comparison_json(comparison) : compare::comparison_text(comparison));
    return ExitCode::Fine;
}

}  // namespace

void add_compare(CLI::App& program, Command& chosen) {
    const auto options = std::make_shared<CompareOptions>();
    CLI::App* verb = program.add_subcommand("compare", "what changed from one to the other: data, settings, results against U, verdicts");
    verb->footer("wayfolio compare K-2041-2025.pdf K-2041.json");
    verb->add_option("OLD", options->was, "a result document, a PDF that this program made, or a record");
    verb->add_option("NEW", options->now, "the same");
    verb->add_flag("--json", options->json, "the same for other programs");
    verb->callback([&chosen, options] { chosen = {[options](const Console&) { return compare_both(*options); }, FaultsAs::Messages}; });
}

}  // namespace wayfolio::commands
