#pragma once
#include "commands/command.hpp"
#include "commands/outputs.hpp"
#include "front/evaluated.hpp"

#include <string>
#include <vector>

namespace wayfolio::commands {

using front::any_outside;
using front::Evaluated;
using front::read_and_evaluate;
using front::require_input;
using front::tell_warnings;

/// A document as it is, or the one that a PDF or a record carries; "-" is a document on standard input.
/// @throws input::InputMissing, input::InputRejected
document::Document document_of(const std::string& path);

/// What CLI11 asks whether a value is one of `words`: "" if it is, else what is wrong, as "unknown paper A3; use A4 or Letter".
std::function<std::string(const std::string&)> one_of(std::string what, std::vector<std::string> words);

/// The series called `id`. @throws UsageError naming the nearest and all ids
const evaluate::SeriesEvaluation& series_called(const evaluate::Evaluation& evaluation, const std::string& id);

/// " (did you mean \"report\"?)" when one of `known` is near `word`, else "".
std::string did_you_mean(const std::string& word, const std::vector<std::string>& known);

}  // namespace wayfolio::commands
