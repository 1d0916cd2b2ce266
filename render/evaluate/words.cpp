#include "evaluate/words.hpp"

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
        case SeriesKind::Steps:
            return "steps";
    }
    outside_the_set();
}

std::string_view word(Source source) { return source == Source::Runs ? "runs" : "stated"; }
std::string_view word(Approach approach) { return approach == Approach::Positive ? "positive" : "negative"; }
std::string_view word(Side side) { return side == Side::Max ? "max" : "min"; }

std::string_view word(results::ReferenceLine line) {
    switch (line) {
        case results::ReferenceLine::EndPoint:
            return "end_point";
        case results::ReferenceLine::LeastSquares:
            return "least_squares";
        case results::ReferenceLine::MinimumZone:
            return "minimum_zone";
    }
    outside_the_set();
}

std::string_view word(results::DecisionRule rule) {
    switch (rule) {
        case results::DecisionRule::Simple:
            return "simple";
        case results::DecisionRule::GuardBand:
            return "guard_band";
        case results::DecisionRule::GuardBandBothSides:
            return "guard_band_both_sides";
        case results::DecisionRule::Iso14253_1:
            return "iso_14253_1";
        case results::DecisionRule::NonBinary:
            return "non_binary";
    }
    outside_the_set();
}

std::string_view word(results::TableKind kind) {
    switch (kind) {
        case results::TableKind::Bidirectional:
            return "bidirectional";
        case results::TableKind::Positive:
            return "positive";
        case results::TableKind::Negative:
            return "negative";
        case results::TableKind::Both:
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

}  // namespace wayfolio::evaluate
