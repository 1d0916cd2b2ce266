#pragma once
#include "report/model/verdict.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// A decision with the words and units that a page uses for it.
struct Judgement {
    const evaluate::Decision* decision;  ///< of the subject's evaluation; never nullptr
    std::string name;    ///< "Straightness error EZX", "Reversal error B of X", "Local straightness Z over 300 mm", "Squareness of X and Y"
    std::string symbol;  ///< "EZX", "EC0Y"
    Shown shown;
};

/// What its page calls a decision of a series: the quantity, or the parameter where that is not what speaks for it; with its length.
std::string decision_name(const Subject& subject, const SeriesView& view, const evaluate::Decision& decision);

/// The squareness results that speak for the machine as it is now: those of the answering series, and those measured in no later state.
std::vector<const evaluate::SquarenessEvaluation*> answering_squareness(const Subject& subject, const std::vector<SeriesView>& views);
std::string squareness_name(const std::array<std::string, 2>& axes);

/// Every decision that the first page answers for, in the document's order.
std::vector<Judgement> judgements(const Subject& subject, const std::vector<SeriesView>& views);
/// Those of one standing.
std::vector<Judgement> of_standing(const std::vector<Judgement>& all, Standing standing);

}  // namespace wayfolio::report
