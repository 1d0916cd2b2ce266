#pragma once
#include "compare/pairing.hpp"

namespace wayfolio::compare {

/// A squareness on both sides, or on one whose series have counterparts on the other.
struct SquarenessPair {
    const evaluate::SquarenessEvaluation *was, *now;  ///< one of the two may be nullptr
    std::string parameter;                            ///< "squareness of X and Y"; with its series where the axes have several
};

/// Paired by axes and series, else by the axes alone where that leaves no choice.
std::vector<SquarenessPair> paired_squareness(const std::vector<Pair>& series, const evaluate::Evaluation& was, const evaluate::Evaluation& now);

/// @param same_runs ids (of the new document) of the paired series whose readings are the same
ParameterChange squareness_change(const SquarenessPair& pair, const Side& was, const Side& now, const std::vector<std::string>& same_runs);

}  // namespace wayfolio::compare
