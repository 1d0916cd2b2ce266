#include "front/evaluated.hpp"

#include "document/read_document.hpp"
#include "front/command.hpp"

#include <fmt/core.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <optional>
#include <utility>

namespace wayfolio::front {

namespace {

namespace fs = std::filesystem;

/// What stands behind a name, or behind a standard stream for "-": a regular file, or nothing.
std::optional<std::pair<dev_t, ino_t>> file_behind(const fs::path& path, int stream) {
    struct stat found {};
    const bool there = path == "-" ? fstat(stream, &found) == 0 : stat(path.c_str(), &found) == 0;
    return there && S_ISREG(found.st_mode) ? std::optional(std::pair(found.st_dev, found.st_ino)) : std::nullopt;
}

}  // namespace

Evaluated read_and_evaluate(const std::string& path, const Console& console, std::size_t processors) {
    require_input(path);
    document::Document document = document::read_document(std::filesystem::path(path));
    evaluate::Evaluation evaluation = evaluate::evaluate(document, processors);
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

bool any_outside(const evaluate::Evaluation& evaluation) {
    return std::any_of(evaluation.decisions.begin(), evaluation.decisions.end(), [](const evaluate::Decision& decision) {
        return decision.outcome == evaluate::Outcome::Fail || decision.outcome == evaluate::Outcome::ConditionalFail;
    });
}

void require_no_input(const std::string& output, const FilesRead& read) {
    const auto target = file_behind(output, STDOUT_FILENO);
    for (const fs::path& input : read)
        if (target && file_behind(input, STDIN_FILENO) == target)
            throw UsageError(fmt::format("the output {} is also an input, {}; name another file",
                                         output == "-" ? "on standard output" : output,
                                         input == "-" ? "on standard input" : input.string()));
}

}  // namespace wayfolio::front
