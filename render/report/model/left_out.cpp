#include "report/model/answer.hpp"

#include <cctype>

namespace wayfolio::report {
namespace {

std::string counted(std::size_t count, const std::string& one, const std::string& more) {
    return std::to_string(count) + " " + (count == 1 ? one : more);
}

/// "7 limits, all inside"; "9 limits: 2 undecided, 7 inside"
std::string limits_words(const std::map<Standing, std::size_t>& limits) {
    std::size_t all = 0;
    std::string each;
    for (const auto& [standing, count] : limits) {
        all += count;
        std::string word(evaluate::word(standing));
        word.front() = static_cast<char>(std::tolower(static_cast<unsigned char>(word.front())));
        each += (each.empty() ? "" : ", ") + (limits.size() == 1 ? "" : std::to_string(count) + " ") + word;
    }
    return counted(all, "limit", "limits") + (limits.size() > 1 ? ": " : all == 1 ? ", " : ", all ") + each;
}

}  // namespace

Text words_of(const LeftOut& left) {
    std::vector<std::string> parts;
    auto limits = left.rows;
    const auto without = limits.find(Standing::NoLimit);
    const std::size_t values = left.quiet + (without == limits.end() ? 0 : without->second);
    limits.erase(Standing::NoLimit);
    if (!limits.empty()) parts.push_back(limits_words(limits));
    const auto add = [&](std::size_t count, const std::string& one, const std::string& more) {
        if (count > 0) parts.push_back(counted(count, one, more));
    };
    add(values, "value without a limit or superseded", "values without a limit or superseded");
    add(left.steps, "step to do next", "steps to do next");
    add(left.facts, "line on the job", "lines on the job");
    add(left.notes, "text of head and foot in full", "texts of head and foot in full");
    add(left.paragraphs, "paragraph on how it was measured", "paragraphs on how it was measured");
    add(left.weaknesses, "thing that weakens this", "things that weaken this");
    add(left.issues, "note on the issue", "notes on the issue");
    add(left.signatures, "signature", "signatures");
    Text words;
    if (parts.empty()) return words;
    std::string all;
    for (const std::string& part : parts) all += (all.empty() ? "" : "; ") + part;
    return words.strong("Not on this page").plain(": " + all + ". All are kept: see the report.");
}

}  // namespace wayfolio::report
