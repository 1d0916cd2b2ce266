#pragma once
#include "compare/comparison.hpp"

namespace wayfolio::compare {

struct Pair {
    const evaluate::SeriesEvaluation *was, *now;
};

/// The series of both sides that measure the same error in the same kind of unit: first those of one id, then of one state, then
/// the rest (as found against as left), each where that leaves no choice on either side. What is not paired is not compared.
std::vector<Pair> paired(const evaluate::Evaluation& was, const evaluate::Evaluation& now);

}  // namespace wayfolio::compare
