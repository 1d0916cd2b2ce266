#pragma once
#include "compare/pairing.hpp"

namespace wayfolio::compare {

/// Every result of two paired series: parameters, local straightness of each length, and the parameters at the tool point.
std::vector<ParameterChange> result_changes(const Pair& pair, const Side& was, const Side& now, bool same_runs);

/// A value of one side, its U, and why there is none.
struct Found {
    std::optional<Deviation> value{}, expanded{};
    std::string reason = "no such parameter on this side";
};

/// Enters both sides, and holds their difference against U.
void weigh(ParameterChange& change, const Found& was, const Found& now, bool same_runs);

/// "300 mm", as the names of results and verdicts have it.
std::string length_words(double length_mm);

}  // namespace wayfolio::compare
