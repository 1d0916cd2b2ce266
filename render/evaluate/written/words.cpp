#include "evaluate/written/words.hpp"

#include <algorithm>
#include <stdexcept>

namespace wayfolio::evaluate {
namespace {

[[noreturn]] void outside_the_set() { throw std::logic_error("a value outside its closed set has no word"); }

}  // namespace

std::string_view word(SeriesKind kind) {
    switch (kind) {
        case SeriesKind::Positioning:
            return "positioning";
        case SeriesKind::Straightness:
            return "straightness";
        case SeriesKind::Angle:
            return "angle";
        case SeriesKind::AngleSteps:
            return "steps";
    }
    outside_the_set();
}

std::string_view word(Source source) { return source == Source::Runs ? "runs" : "stated"; }
std::string_view word(Side side) { return side == Side::Max ? "max" : "min"; }

std::string_view word(document::ReferenceLine line) {
    switch (line) {
        case document::ReferenceLine::EndPoint:
            return "end_point";
        case document::ReferenceLine::LeastSquares:
            return "least_squares";
        case document::ReferenceLine::MinimumZone:
            return "minimum_zone";
    }
    outside_the_set();
}

std::string word(document::Influence influence) {
    std::string spelt(document::influence_word(influence));
    std::replace(spelt.begin(), spelt.end(), '-', '_');
    return spelt;
}

std::string_view word(document::DecisionRule rule) {
    switch (rule) {
        case document::DecisionRule::Simple:
            return "simple";
        case document::DecisionRule::GuardBand:
            return "guard-band";
        case document::DecisionRule::GuardBandBothSides:
            return "guard-band-both-sides";
        case document::DecisionRule::Iso14253_1:
            return "iso-14253-1";
        case document::DecisionRule::NonBinary:
            return "non-binary";
    }
    outside_the_set();
}

std::string_view word(document::TableKind kind) {
    switch (kind) {
        case document::TableKind::Bidirectional:
            return "bidirectional";
        case document::TableKind::Positive:
            return "positive";
        case document::TableKind::Negative:
            return "negative";
        case document::TableKind::Both:
            return "both";
    }
    outside_the_set();
}

std::string_view word(Outcome outcome) {
    switch (outcome) {
        case Outcome::Pass:
            return "pass";
        case Outcome::Fail:
            return "fail";
        case Outcome::ConditionalPass:
            return "conditional_pass";
        case Outcome::ConditionalFail:
            return "conditional_fail";
        case Outcome::Undecided:
            return "undecided";
        case Outcome::NotDecided:
            return "not_decided";
    }
    outside_the_set();
}

std::optional<Outcome> outcome_called(std::string_view word_of_it) {
    for (const Outcome outcome : {Outcome::Pass, Outcome::Fail, Outcome::ConditionalPass, Outcome::ConditionalFail,
                                  Outcome::Undecided, Outcome::NotDecided})
        if (word(outcome) == word_of_it) return outcome;
    return std::nullopt;
}

std::string_view word(SetupVerdict verdict) {
    switch (verdict) {
        case SetupVerdict::Pass:
            return "pass";
        case SetupVerdict::Fail:
            return "fail";
        case SetupVerdict::NotDecided:
            return "not_decided";
    }
    outside_the_set();
}

std::string_view word(KnownBias::Treatment treatment) {
    switch (treatment) {
        case KnownBias::Treatment::Corrected:
            return "corrected";
        case KnownBias::Treatment::InBudget:
            return "in_budget";
        case KnownBias::Treatment::Small:
            return "small";
        case KnownBias::Treatment::Added:
            return "added";
        case KnownBias::Treatment::Open:
            return "open";
    }
    outside_the_set();
}

}  // namespace wayfolio::evaluate
