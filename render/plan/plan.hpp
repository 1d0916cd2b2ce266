#pragma once
#include "document/error_symbol.hpp"
#include "document/series.hpp"
#include "evaluate/series_evaluation.hpp"
#include "gather/facts/facts.hpp"
#include "plan/target_positions.hpp"

#include <optional>
#include <string>
#include <vector>

/// A job before it starts: an empty document, and a sheet to fill by hand.
namespace wayfolio::plan {

struct PlanRequest {
    std::vector<document::ErrorSymbol> errors;  ///< at least one, all of one axis
    std::optional<Range> range;                 ///< else the travel that the facts give the axis
    std::size_t runs = 5;                       ///< in each approach
    std::optional<std::size_t> targets;         ///< else as many as the standard asks for at least
    document::RunOrder order = document::RunOrder::Alternating;
    std::uint64_t seed = 1;
    std::optional<double> feed, dwell_s;  ///< feed in mm or degrees a minute
    std::vector<std::string> states;      ///< a series for each; none: one without a state
    std::vector<gather::FactsFile> facts;
};

/// How long the axis moves and stands. Set-up, warm-up, acceleration and what lies between runs are not in it.
struct PlannedTime {
    double run_s, series_s, all_s;
};

struct PlannedSeries {
    std::string id, error, words, state;  ///< words: "straightness error of X in Y"
    std::string unit;                     ///< "um"
};

struct Planned {
    std::string document;  ///< what gather() takes as the document to add to
    std::vector<PlannedSeries> series;
    Range range;
    std::vector<double> targets;
    std::size_t runs = 0;
    document::RunOrder order = document::RunOrder::Alternating;
    std::uint64_t seed = 1;
    std::optional<double> feed, dwell_s;
    std::optional<PlannedTime> time;              ///< nothing without feed and dwell
    std::vector<evaluate::Condition> conditions;  ///< those of the standard, judged as if every reading had been taken
    std::string machine, job;                     ///< as facts name them, "" else
    std::vector<gather::FactsAccount> facts;
};

/// @throws input::InputRejected with the faults of the facts, or where neither request nor facts say what travel is measured
Planned plan(const PlanRequest& request);

/// The plan as lines for a reader.
std::string plan_text(const Planned& planned);

/// What both say of a plan: its targets, runs and time, each a line without its full stop.
std::vector<std::string> plan_lines(const Planned& planned);

/// "1 h 12 min", "48 min", "30 s"; rounded up to minutes from 10 minutes on.
std::string duration_words(double seconds);

}  // namespace wayfolio::plan
