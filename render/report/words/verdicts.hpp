#pragma once
#include "evaluate/evaluation.hpp"
#include "report/model/verdict.hpp"
#include "report/words/shown.hpp"

namespace wayfolio::report {

/// Decimals of a decided value and of its U wherever they stand: those of the result, more where rounding would turn the sign of a margin
/// or hide it; below 0: tens, hundreds ... Needs a decision with a value.
int decided_decimals(const evaluate::Decision& decision, const Shown& shown);

/// What is left to the limit, from numbers as they are printed, so that it closes on the page.
struct PrintedMargin {
    double value;  ///< printed limit less printed value, less printed U where it is taken off; in the shown unit, negative past the limit
    int decimals;  ///< of whichever has more, limit or result
};
enum class TakenOff { Value, ValueAndU, ValueAndGuard };
/// Needs a decision with a value, and with its U where that or the rule's guard is taken off.
PrintedMargin printed_margin(const evaluate::Decision& decision, const Shown& shown, TakenOff taken_off);

/// The verdict on one decision, in words and numbers, with the printed margin. `decision` may be null: no limit is set.
Verdict verdict_of(const evaluate::Decision* decision, const Shown& shown);

/// The one sentence for it: "Straightness Y is outside its limit of 30 µm: 9.0 µm over, 4.9 beyond U."
Text verdict_sentence(Text name, const evaluate::Decision& decision, const Shown& shown);

/// What a rule compares with the limit: the value itself, of a signed result (mean reversal, slope, squareness) its size.
/// Needs a decision with a value.
Deviation judged_value(const evaluate::Decision& decision);

/// How far the printed value stands from the limit, either side: "11.1 µm". Needs a decision with a value.
std::string distance_to_limit(const evaluate::Decision& decision, const Shown& shown);

/// "Rule: guard band on both sides." — the words for a decision rule, with its edition where one matters.
std::string rule_words(document::DecisionRule rule);
/// The rule explained in one or two sentences.
std::string rule_explained(document::DecisionRule rule);

/// Worst first, as the standings stand.
int severity(const evaluate::Decision* decision);

/// The decision on a parameter of a series, or on a squareness, or nullptr.
const evaluate::Decision* find_decision(const evaluate::Evaluation& evaluation, std::string_view series, std::string_view parameter);
const evaluate::Decision* find_decision(const evaluate::Evaluation& evaluation, const evaluate::SquarenessEvaluation& squareness);

}  // namespace wayfolio::report
