#include "commands/inputs.hpp"

#include "input/json/nearest.hpp"
#include "document/read_document.hpp"

#include <fmt/core.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <filesystem>

namespace wayfolio::commands {

Evaluated read_and_evaluate(const std::string& path, const Console& console) {
    require_input(path);
    document::Document document = document::read_document(std::filesystem::path(path));
    evaluate::Evaluation evaluation = evaluate::evaluate(document);
    tell_warnings(document, evaluation, console);
    return {std::move(document), std::move(evaluation)};
}

void tell_warnings(const document::Document& document, const evaluate::Evaluation& evaluation, const Console& console) {
    for (const evaluate::Warning& warning : evaluation.warnings)
        tell_of(console, Tone::Warning, "warning:", fmt::format("{}: {}: {}", document.file, warning.pointer, warning.text));
}

void require_input(const std::string& path) {
    if (path.empty()) throw UsageError("no result document given: name a file, or - for standard input");
}

const evaluate::SeriesEvaluation& series_called(const evaluate::Evaluation& evaluation, const std::string& id) {
    if (const auto* found = evaluate::find_series(evaluation, id)) return *found;
    std::vector<std::string> known;
    for (const auto& series : evaluation.series) known.push_back(series.id);
    throw UsageError(
        fmt::format("no series is called \"{}\"{}; the document has: {}", id, did_you_mean(id, known), fmt::join(known, ", ")));
}

bool any_outside(const evaluate::Evaluation& evaluation) {
    return std::any_of(evaluation.decisions.begin(), evaluation.decisions.end(), [](const evaluate::Decision& decision) {
        return decision.outcome == evaluate::Outcome::Fail || decision.outcome == evaluate::Outcome::ConditionalFail;
    });
}

std::string did_you_mean(const std::string& word, const std::vector<std::string>& known) {
    const std::vector<std::string_view> words(known.begin(), known.end());
    const auto near = input::nearest(word, words);
    return near ? fmt::format(" (did you mean \"{}\"?)", *near) : std::string();
}

std::function<std::string(const std::string&)> one_of(std::string what, std::vector<std::string> words) {
    return [what = std::move(what), words = std::move(words)](const std::string& given) {
        if (std::ranges::find(words, given) != words.end()) return std::string();
        const std::vector<std::string> first(words.begin(), words.end() - 1);
        return fmt::format("unknown {} {}; use {} or {}", what, given, fmt::join(first, ", "), words.back());
    };
}

}  // namespace wayfolio::commands
