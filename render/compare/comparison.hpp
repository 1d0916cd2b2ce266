#pragma once
#include "evaluate/standing.hpp"
#include "evaluate/evaluation.hpp"
#include "document/document.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What changed between two results of one job: other readings, other settings, other numbers.
namespace wayfolio::compare {

using units::Deviation;
using units::DeviationUnit;

/// One of the two sides. Plain references: the caller keeps the values alive.
struct Side {
    std::string name;  ///< the file or folder it came from, for messages
    const document::Document& document;
    const evaluate::Evaluation& evaluation;
};

/// A value of the document that the two sides give differently. Readings are not among them: see ReadingChanges.
struct Change {
    std::string pointer;   ///< JSON Pointer (RFC 6901) in the new document, in the old one for what is gone
    std::string of;        ///< id of the series, instrument or the like that it belongs to; empty where there is none
    std::string was, now;  ///< as JSON; empty where there is none
};

/// How the readings of one series differ.
struct ReadingChanges {
    std::string series;      ///< id in the new document
    bool same_plan = true;   ///< the same targets, and as many runs in the same directions
    std::size_t other_values = 0, set_aside = 0, taken_back = 0;  ///< of readings at the same place; only with `same_plan`
    std::optional<Deviation> largest;                             ///< of the differences between such readings
    DeviationUnit unit = units::micrometre;
    [[nodiscard]] bool none() const { return same_plan && other_values + set_aside + taken_back == 0; }
    /// The instrument's readings are the same, whatever was set aside.
    [[nodiscard]] bool same_runs() const { return same_plan && other_values == 0; }
};

/// What a difference is held against. Of the same runs the two results share their errors, so that the larger U is what counts;
/// two measurements are independent for the most part, and their difference has the root of the sum of squares
/// (as the E_n number of ISO/IEC 17043:2010 B.3.1.3 [from memory]).
enum class Yardstick { LargerU, RootSumSquare, None };

/// One result on both sides: a parameter of a series, as measured or at the tool point; a local straightness; a squareness.
struct ParameterChange {
    std::string series;     ///< id in the new document; empty for a squareness
    std::string error, state;
    std::string
        parameter;  ///< no other result of the series has this name: "E", "E at the functional point", "local over 300 mm, end-point chord"
    std::string name{};     ///< as the evaluation calls it: "E", "local", "squareness"
    bool at_tool_point = false;
    std::optional<double> length_mm{};                           ///< of "local"
    std::optional<document::ReferenceLine> line{};                ///< of "local": what its windows are taken about
    std::optional<std::array<std::string, 2>> axes{}, from{};  ///< of "squareness": its axes, and the ids of its series in the new document
    DeviationUnit unit = units::micrometre;
    std::optional<Deviation> was{}, now{}, expanded_was{}, expanded_now{};
    std::optional<double> factor_was{}, factor_now{};  ///< k of either U
    std::optional<Deviation> difference{};           ///< now - was
    Yardstick yardstick = Yardstick::None;
    std::optional<Deviation> expanded_difference{};  ///< U of the difference, by standard uncertainties: both k may differ
    std::optional<double> against_U{};               ///< |difference| over its U; above 1 it is more than its uncertainty
    [[nodiscard]] bool factors_differ() const { return factor_was != factor_now; }
    std::string reason_was{}, reason_now{};  ///< why there is no value
    [[nodiscard]] bool differs() const;   ///< value or U, by more than a conversion between units rounds
};

/// A verdict on one limit that is not what it was. Of a squareness, `series` is empty.
struct VerdictChange {
    std::string series, parameter;
    evaluate::Standing was, now;                     ///< NoLimit where that side has no such limit
    std::optional<evaluate::Outcome> outcome_was{}, outcome_now{};  ///< as the evaluations have them; empty where there is no limit
};

/// What of the two sides is set beside what.
enum class Beside {
    Same,         ///< the same states, where both have them
    LeftAndFound  ///< what the old visit left beside what the new one found: how the machine changed in between
};

/// A series whose counterpart has another id.
struct OtherId {
    std::string was, now, state_was, state_now;
};

struct Comparison {
    std::string was, now;                           ///< names of the sides
    std::string state_was{}, state_now{};           ///< what is compared of each, where that was asked for; else empty
    bool visits_apart = false;                      ///< two jobs, of which one has several states: left beside found would tell more
    std::size_t series_compared = 0;
    std::vector<std::string> only_was, only_now;    ///< ids of series without a counterpart
    std::vector<OtherId> paired_by_error;
    std::vector<Change> changes;
    std::vector<ReadingChanges> readings;           ///< paired series whose readings differ
    std::vector<ParameterChange> parameters;        ///< all results of the paired series and squarenesses, also the unchanged
    std::vector<VerdictChange> verdicts;
    [[nodiscard]] bool same() const;                ///< nothing at all differs
};

/// Pairs the series that measure the same error: by id, else by state, else by the error alone, each where that leaves no choice;
/// and tells what differs.
Comparison compare(const Side& was, const Side& now, Beside beside = Beside::Same);

/// Which changes moved a result: each of them moves it when it is made alone to the old document, and together they make it what it is
/// now. Found by evaluating such documents, never guessed.
struct Cause {
    std::string series, parameter;     ///< as in ParameterChange
    std::vector<std::size_t> changes;  ///< counted from 0: Comparison::changes, then Comparison::readings. Empty: only several together
};
/// Causes of every result whose value, U or verdict is another; nothing where the two were not compared state by state, or where more
/// entries changed than can be tried.
std::optional<std::vector<Cause>> causes(const Side& was, const Side& now, const Comparison& comparison);

struct SeriesPair {
    const evaluate::SeriesEvaluation *was, *now;
};

/// The series of both sides that measure the same error in the same kind of unit: first those of one id, then of one state, then
/// the rest (as found against as left), each where that leaves no choice on either side. What is not paired is not compared.
std::vector<SeriesPair> paired(const evaluate::Evaluation& was, const evaluate::Evaluation& now);
/// Those of one error alone, of these states on each side; a series that names no state is of any.
std::vector<SeriesPair> paired(const evaluate::Evaluation& was, const std::string& state_was, const evaluate::Evaluation& now,
                               const std::string& state_now);

/// For a terminal. Numbers at two digits of their uncertainty (GUM 7.2.6), else at three digits behind the point.
std::string comparison_text(const Comparison& comparison);

/// "format": "wayfolio-comparison", numbers unrounded in the unit named beside them; keys as comparison_schema() describes them.
/// @param causes as causes() found them
std::string comparison_json(const Comparison& comparison, const std::optional<std::vector<Cause>>& causes);

/// The JSON Schema (draft-07) of comparison_json().
std::string_view comparison_schema();

}  // namespace wayfolio::compare
