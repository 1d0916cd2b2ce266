#include "evaluate/surroundings/surroundings.hpp"

namespace wayfolio::evaluate {
namespace {

SetupOutcome outcome_of(std::size_t place, const document::SetupCheck& check) {
    SetupOutcome outcome{place, check.name, SetupVerdict::NotDecided, "", check.basis == "common practice"};
    if (check.reading && (check.at_most || check.at_least)) {
        const bool within =
            (!check.at_most || *check.reading <= *check.at_most) && (!check.at_least || *check.reading >= *check.at_least);
        outcome.outcome = within ? SetupVerdict::Pass : SetupVerdict::Fail;
    } else if (check.done) {
        outcome.outcome = *check.done ? SetupVerdict::Pass : SetupVerdict::Fail;
    } else {
        outcome.reason = check.reading ? "no limit is stated" : "neither a reading nor whether it was done is stated";
    }
    return outcome;
}

}  // namespace

std::vector<SetupOutcome> evaluate_setup(const document::Document& document) {
    std::vector<SetupOutcome> outcomes;
    if (!document.setup) return outcomes;
    for (std::size_t i = 0; i < document.setup->checks.size(); ++i) outcomes.push_back(outcome_of(i, document.setup->checks[i]));
    return outcomes;
}

}  // namespace wayfolio::evaluate
