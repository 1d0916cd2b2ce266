#pragma once
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// Checks a PDF against what this program promises of each one: PDF/A-3a (ISO 19005-3), PDF/UA-1 (ISO 14289-1), and what a careful reader
/// expects beyond both. A library of its own over libqpdf: it knows nothing of how the files are made.
namespace wayfolio::conformance {

/// One promise. `source` names the standard's clause, from memory where it says so.
struct Rule {
    std::string_view name, source, meaning;
};

std::span<const Rule> rules();

/// A rule that a file breaks, and where.
struct Fault {
    std::string rule, where, what;
};

/// Every fault found, in the order of the rules' groups; empty for a file that keeps all rules. Bytes that are no PDF are one fault.
std::vector<Fault> faults_of(const std::string& pdf);

/// JSON Schema (draft 7) of what the command prints of them with --json ("wayfolio-conformance").
std::string_view conformance_schema();

}  // namespace wayfolio::conformance
