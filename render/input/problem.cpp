#include "input/problem.hpp"

#include "input/encoding.hpp"

#include <fmt/format.h>
#include <utility>

namespace wayfolio::input {
namespace {

std::string all_to_text(const std::vector<Problem>& problems) {
    std::string text;
    for (const Problem& problem : problems) {
        if (!text.empty()) text += '\n';
        text += to_text(problem);
    }
    return text;
}

}  // namespace

std::string to_text(const Problem& problem) {
    std::string text = problem.file;
    if (problem.place.line != 0) text += fmt::format(":{}:{}", problem.place.line, problem.place.column);
    text += ": ";
    if (!problem.place.pointer.empty()) text += problem.place.pointer + ": ";
    text += fmt::format("found {}; expected {}", problem.found, problem.expected);
    if (!problem.hint.empty()) text += fmt::format(" ({})", problem.hint);
    return printable(text);
}

InputRejected::InputRejected(std::vector<Problem> problems) : problems_(std::move(problems)) {
    if (problems_.size() > cap) problems_.resize(cap);
    text_ = all_to_text(problems_);
}

InputMissing::InputMissing(std::string path, std::string reason) : text_(printable(fmt::format("{}: {}", path, reason))) {}

}  // namespace wayfolio::input
