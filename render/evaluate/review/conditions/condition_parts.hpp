#pragma once
#include "evaluate/review/conditions/tested_axis.hpp"

/// The parts that test_conditions() is made of.
namespace wayfolio::evaluate {

/// Number of targets, their spacing, principal positions of a rotary axis.
void add_target_conditions(std::vector<Condition>& conditions, const TestedAxis& axis, Targets targets);

/// Runs in each direction: five, or one on a long axis.
void add_run_conditions(std::vector<Condition>& conditions, const TestedAxis& axis);

/// What the document has to say of warm-up, reference temperature and thermal expansion.
void add_stated_conditions(std::vector<Condition>& conditions, const document::Document& document, const document::Series& series);

}  // namespace wayfolio::evaluate
