#pragma once
#include "document/states.hpp"
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

/// The same quantity in two states of the machine: its numbers, and its panels with the difference.
namespace wayfolio::report {

struct BothStates {
    SeriesView first, second;
    std::string parameter;
};

/// Series of the same error on the same line, one in each state, whose headline has a value in both.
std::vector<BothStates> pairs_of(const Subject& subject, const document::StatesCompared& states);

Verdict verdict_in(const Subject& subject, const SeriesView& view, const std::string& parameter);
/// U of the difference of two results; nothing where one has none.
std::optional<Deviation> U_of_change(const Subject& subject, const evaluate::ParameterUncertainty* from,
                                     const evaluate::ParameterUncertainty* to);
std::optional<Deviation> U_of_change(const Subject& subject, const BothStates& pair);

/// Both values of a pair and their uncertainties, to the one place that they share wherever they stand.
struct PairNumbers {
    Deviation before, after;
    std::optional<Deviation> U_before, U_after, U;
    units::PrintedDifference change;
};
PairNumbers numbers_of(const Subject& subject, const BothStates& pair);

/// The limit's number, or a dash.
Text limit_text(const Shown& shown, const evaluate::Decision* decision);

StatePair drawn_pair(const Subject& subject, const BothStates& pair);

}  // namespace wayfolio::report
