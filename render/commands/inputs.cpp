#include "commands/inputs.hpp"

#include "input/json/nearest.hpp"

#include <fmt/core.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace wayfolio::commands {

const evaluate::SeriesEvaluation& series_called(const evaluate::Evaluation& evaluation, const std::string& id) {
    if (const auto* found = evaluate::find_series(evaluation, id)) return *found;
    std::vector<std::string> known;
    for (const auto& series : evaluation.series) known.push_back(series.id);
    throw UsageError(
        fmt::format("no series is called \"{}\"{}; the document has: {}", id, did_you_mean(id, known), fmt::join(known, ", ")));
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
