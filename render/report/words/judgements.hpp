#pragma once
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// A decision with the words and units that a page uses for it.
struct Judgement {
    const evaluate::Decision* decision;  ///< of the subject's evaluation; never nullptr
    std::string quantity;  ///< what it belongs to: the series, or the two axes of a squareness
    std::string name;      ///< "Straightness Z", "Reversal error B of X", "Squareness of X and Y"
    std::string symbol;    ///< "EZX", "EC0Y"
    Shown shown;
};

/// What its page calls a decision of a series: the quantity, or the parameter where that is not what speaks for it.
std::string decision_name(const Subject& subject, const SeriesView& view, const evaluate::Decision& decision);

/// The squareness results that speak for the machine as it is now: those of the answering series, and those measured in no later state.
std::vector<const evaluate::SquarenessEvaluation*> answering_squareness(const Subject& subject, const std::vector<SeriesView>& views);
/// How squareness is shown: an angle by the layout, in µrad where the layout keeps the unit of a series.
Shown squareness_shown(const layouts::Layout& layout);
std::string squareness_name(const std::array<std::string, 2>& axes);

/// Every decision that the first page answers for, in the document's order.
std::vector<Judgement> judgements(const Subject& subject, const std::vector<SeriesView>& views);

/// Quantities by their worst decision; local limits and limits of single parameters count with their quantity.
struct Tally {
    std::size_t quantities = 0, limited = 0, inside = 0;
    std::vector<Judgement> outside, undecided, open;  ///< open: not decided
};
Tally tally(const Subject& subject, const std::vector<SeriesView>& views);

}  // namespace wayfolio::report
