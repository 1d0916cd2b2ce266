#pragma once
#include "report/model/uncertainty_block.hpp"
#include "report/words/subject.hpp"

/// The results whose uncertainty a report speaks about, and the words for them.
namespace wayfolio::report {

/// A result with its U, and the limit that it is held against.
struct UncertainResult {
    const evaluate::ParameterUncertainty* entry;  ///< of the subject's evaluation; never nullptr
    const SeriesView* view;                       ///< nullptr: a squareness
    const evaluate::Decision* decision;           ///< nullptr: no limit
    std::optional<Deviation> value;
    Shown shown;
    bool speaks;                  ///< for its quantity, on the first page
    bool one_of_several = false;  ///< more than one axis has parameters of positioning

    [[nodiscard]] int decimals() const;
};

/// The uncertainties of the answering series that a page has room for, those with a limit first, in the order of the document: of what
/// has a limit or speaks for its quantity, and of all parameters of positioning that both directions set.
/// @param views answering_series(); the results point into it
std::vector<UncertainResult> uncertain_results(const Subject& subject, const std::vector<SeriesView>& views);

/// "EXX" over "A", "EYX", "EYX" over "300 mm".
ColumnHead head_of(const UncertainResult& result);
/// "A", of several axes "A (EXX)", "EYX", "EYX over 300 mm": inside a sentence.
Text sentence_name(const UncertainResult& result);

/// Whose part a line of a budget is.
PartOf part_of(const evaluate::BudgetLine& line);
/// "the instrument", "random variation of the readings": a part in a sentence.
std::string part_words(PartOf part);

/// U in parts, in proportion to the variance; a known bias counts as it is. Empty where U does not follow from contributors.
std::vector<UncertaintyPart> parts_of(const evaluate::ParameterUncertainty& entry);

}  // namespace wayfolio::report
