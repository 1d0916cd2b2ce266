#pragma once
#include "evaluate/evaluation.hpp"

namespace wayfolio::evaluate {

/// Settles what becomes of every known bias, and enlarges U where it is counted. The rule: a bias that is neither corrected nor covered by
/// a contributor of the document (`influence`), and exceeds a tenth of U(E) over the travel, is added to U by its size, U = k u + |b|
/// (GUM F.2.4.5 [from memory]): of the ways that the GUM leaves this one keeps one number beside the value, weakens every verdict
/// that has a guard band, and never claims too little. Biases of one series are added with their signs first. A tenth: less would not be
/// seen in the second digit of U by much, and small differences of rounded air values would stand in every report.
void count_known_biases(Evaluation& evaluation, const document::Document& document);

}  // namespace wayfolio::evaluate
