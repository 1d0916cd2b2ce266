#pragma once
#include "support/run.hpp"

#include <stdexcept>
#include <vector>

/// The built program, as a user runs it.
namespace wayfolio::testing {

using support::Ran;
using support::run;
using support::TemporaryFolder;

inline const std::string program = std::string(WAYFOLIO_BUILD_FOLDER) + "/wayfolio";
inline const std::string source_folder = WAYFOLIO_SOURCE_FOLDER;
inline const std::string smallest = source_folder + "/sample-results/smallest.json";
inline const std::string short_axis = source_folder + "/sample-results/short-axis.json";

inline Ran called_with(const std::string& arguments) { return run(program + " " + arguments); }

inline const std::vector<std::string> verbs{"batch", "preview", "report",    "figure",  "evaluate", "check",      "table",  "compensation",
                                            "schema",    "layouts", "record",   "verify",     "redraw", "conformance",
                                            "catalogue", "history", "compare",  "certificate", "gather", "facts", "plan",
                                            "serve"};

/// Runs on a terminal of its own, whatever the tests run on: fails where the machine mounts no /dev/pts.
inline Ran on_terminal(const std::string& environment, const std::string& arguments) {
    Ran ran = run("script -qec '" + environment + " " + program + " " + arguments + "' /dev/null </dev/null");
    if (ran.err.starts_with("script: ")) throw std::runtime_error(ran.err + "These tests need a pseudo-terminal: mount /dev/pts.");
    return ran;
}

/// Three faults in one document: an unknown unit, an error symbol that is none, a misspelt key.
inline const std::string three_faults = R"({
  "format": "wayfolio-result", "version": 1,
  "series": [
    {"id": "a", "error": "EXX", "unit": "micron", "position_unit": "mm", "targets": [0, 1])"
    R"(, "runs": [{"approach": "positive", "deviations": [0, 1]}]},
    {"id": "b", "error": "EQQ", "unit": "um", "position_unit": "mm", "targets": [0, 1])"
    R"(, "runs": [{"approach": "positive", "deviations": [0, 1]}]},
    {"id": "c", "error": "EXX", "unit": "um", "position_unit": "mm", "targts": [0, 1], "targets": [0, 1])"
    R"(, "runs": [{"approach": "positive", "deviations": [0, 1]}]}
  ]
}
)";

/// One limit that the readings break, one that they keep: E of 0, 2.2 against 1 µm and 100 µm.
inline std::string document_with_limit(const std::string& limit) {
    return R"({"format": "wayfolio-result", "version": 1, "series": [{"id": "x", "error": "EXX", "unit": "um")"
    R"(, "position_unit": "mm", "targets": [0, 250],
 "runs": [{"approach": "positive", "deviations": [0, 2.2]}, {"approach": "negative", "deviations": [0, 2]}],
 "tolerances": [{"parameter": "E", "limit": )" +
           limit + R"(, "unit": "um", "source": "invented"}]}]})";
}

}  // namespace wayfolio::testing
