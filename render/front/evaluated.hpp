#pragma once
#include "document/document.hpp"
#include "evaluate/evaluation.hpp"
#include "front/console.hpp"

#include <filesystem>
#include <string>
#include <vector>

/// What every command begins with that works on a result document.
namespace wayfolio::front {

/// A result document and what its readings say.
struct Evaluated {
    document::Document document;
    evaluate::Evaluation evaluation;
};

/// Reads and evaluates `path` ("-": standard input) and tells the warnings on standard error.
/// @param processors how many it may work on at a time: more than one gains only where threads have heaps apart, as they have where
/// grow_heap_in_large_pages() was not called
/// @throws UsageError when no path was given; as document::read_document
Evaluated read_and_evaluate(const std::string& path, const Console& console, std::size_t processors = 1);

/// Tells the warnings of an evaluation on standard error.
void tell_warnings(const document::Document& document, const evaluate::Evaluation& evaluation, const Console& console);

/// @throws UsageError when no result document was named
void require_input(const std::string& path);

/// Is one result outside its limit (also by less than U)?
bool any_outside(const evaluate::Evaluation& evaluation);

/// Files that a command reads; "-" is standard input.
using FilesRead = std::vector<std::filesystem::path>;

/// Refuses an output that is one of the files read, under any name, also by a link. @param output "-" is standard output
/// @throws UsageError
void require_no_input(const std::string& output, const FilesRead& read);

}  // namespace wayfolio::front
