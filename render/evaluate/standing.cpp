#include "evaluate/standing.hpp"

#include <stdexcept>

namespace wayfolio::evaluate {

Standing standing_of(Outcome outcome, bool within_limit) {
    switch (outcome) {
        case Outcome::Pass: return Standing::Inside;
        case Outcome::Fail: return within_limit ? Standing::NotAccepted : Standing::Outside;
        case Outcome::ConditionalPass: return Standing::InsideByLess;
        case Outcome::ConditionalFail: return Standing::OutsideByLess;
        case Outcome::Undecided: return Standing::Undecided;
        case Outcome::NotDecided: return Standing::NotEvaluated;
    }
    throw std::logic_error("no such outcome");
}

Standing standing_of(const Decision* decision) {
    if (!decision) return Standing::NoLimit;
    if (!decision->value) return Standing::NotEvaluated;
    // As equal as judge() takes them for.
    constexpr double rounding = 1e-10;
    return standing_of(decision->outcome, abs(*decision->value) <= decision->limit * (1 + rounding));
}

std::string_view word(Standing standing) {
    switch (standing) {
        case Standing::Outside: return "Outside";
        case Standing::OutsideByLess: return "Outside by less than U";
        case Standing::NotAccepted: return "Not accepted";
        case Standing::Undecided: return "Undecided";
        case Standing::NotEvaluated: return "Not evaluated";
        case Standing::InsideByLess: return "Inside by less than U";
        case Standing::Inside: return "Inside";
        case Standing::NoLimit: return "no limit set";
    }
    throw std::logic_error("no such standing");
}

}  // namespace wayfolio::evaluate
