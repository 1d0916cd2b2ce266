#pragma once
#include "evaluate/review/before_leaving.hpp"
#include "evaluate/evaluation.hpp"
#include "input/problem.hpp"

#include <string>
#include <utility>
#include <vector>

/// What `check` says of a document: its faults, or else its warnings, what the readings support and what the document lacks.
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

/// For a reader at a terminal; ends with what stands in the way of packing up and one line of counts.
std::string findings_text(const Findings& findings);

}  // namespace wayfolio::evaluate
