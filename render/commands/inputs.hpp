#pragma once
#include "commands/command.hpp"
#include "commands/outputs.hpp"
#include "evaluate/evaluation.hpp"
#include "document/document.hpp"

#include <string>
#include <vector>

namespace wayfolio::commands {

/// A result document and what its readings say.
struct Evaluated {
    document::Document document;
    evaluate::Evaluation evaluation;
};

/// Reads and evaluates `path` ("-": standard input) and tells the warnings on standard error.
/// @throws UsageError when no path was given; as document::read_document
Evaluated read_and_evaluate(const std::string& path, const Console& console);

/// A document as it is, or the one that a PDF or a record carries; "-" is a document on standard input.
/// @throws input::InputMissing, input::InputRejected
document::Document document_of(const std::string& path);

/// What CLI11 asks whether a value is one of `words`: "" if it is, else what is wrong, as "unknown paper A3; use A4 or Letter".
std::function<std::string(const std::string&)> one_of(std::string what, std::vector<std::string> words);

/// Tells the warnings of an evaluation on standard error.
void tell_warnings(const document::Document& document, const evaluate::Evaluation& evaluation, const Console& console);

/// @throws UsageError when no result document was named
void require_input(const std::string& path);

/// The series called `id`. @throws UsageError naming the nearest and all ids
const evaluate::SeriesEvaluation& series_called(const evaluate::Evaluation& evaluation, const std::string& id);

/// Is one result outside its limit (also by less than U)?
bool any_outside(const evaluate::Evaluation& evaluation);

/// " (did you mean \"report\"?)" when one of `known` is near `word`, else "".
std::string did_you_mean(const std::string& word, const std::vector<std::string>& known);

}  // namespace wayfolio::commands
