#pragma once
#include "evaluate/review/site/before_leaving.hpp"
#include "evaluate/evaluation.hpp"
#include "input/problem.hpp"

#include <string>
#include <utility>
#include <vector>

/// What `check` says of a document: its faults, or else its warnings, what the readings support and what is missing.
namespace wayfolio::evaluate {

/// What one series supports.
struct SeriesFinding {
    std::string id, error;
    SeriesKind kind;
    Source source;
    std::vector<std::string> evaluated;
    std::vector<std::pair<std::string, std::string>> not_evaluated;  ///< parameter, reason
    std::vector<Condition> unmet;  ///< conditions of the standard that do not hold, or that the document leaves open
};

struct Findings {
    std::string file;
    std::vector<input::Problem> faults;
    std::vector<Warning> warnings;
    std::vector<Lack> lacking;
    std::vector<SeriesFinding> supports;
    std::vector<BeforeLeaving> before_leaving{};  ///< what to look at while the instrument still stands on the machine
};

/// The findings of a document without faults.
Findings findings(const document::Document& document, const Evaluation& evaluation);

/// All of it for a reader; ends with one line of counts and, for a document without faults, the sentence of last_line().
std::string findings_text(const Findings& findings);

/// For a reader who stands at the machine, at most ten lines: the most important findings that need it (each with what, where, what
/// to do; one for each code), how many more there are, and the sentence of last_line().
/// @param findings of a document without faults
std::string site_text(const Findings& findings);

}  // namespace wayfolio::evaluate
