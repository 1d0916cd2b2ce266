#pragma once
#include "document/document.hpp"
#include "evaluate/evaluated.hpp"
#include "evaluate/cumulants.hpp"
#include "evaluate/trace_evaluation.hpp"

#include <algorithm>
#include <optional>
#include <span>
#include <string>
#include <vector>

/// What one series says, as plain values. A Deviation or Position knows its own unit; a number without one has it in its name. Lists of
/// targets stand in rising position. Clauses and formulas are named where they are computed (series/).
namespace wayfolio::evaluate {

using document::Approach;
using document::ByApproach;
using units::Deviation;
using units::DeviationUnit;
using units::Position;
using units::PositionUnit;

/// What the readings of one direction at one target say: x̄_i↑, s_i↑ (n - 1), R_i↑ = 4 s_i↑ of ISO 230-2 clause 3 [from memory].
struct OneWay {
    std::size_t n = 0;  ///< readings used; 0 where the document states mean and s only
    std::optional<Deviation> mean{}, s{}, R{};
};

/// What the readings at one target say. Targets stand in rising order of position; `index` is the place in document::Series::targets.
/// Symbols of ISO 230-2 clause 3 [from memory].
struct TargetEvaluation {
    std::size_t index;
    Position position;
    double written;  ///< position as the file wrote it, in the series' position unit
    ByApproach<OneWay> one_way{};
    std::optional<Deviation> mean{};      ///< x̄_i, of both directions
    std::optional<Deviation> reversal{};  ///< B_i = x̄_i↑ - x̄_i↓, signed
    std::optional<Deviation> R{};         ///< R_i, both directions

    /// The mean of one direction; without a direction that of both.
    [[nodiscard]] const std::optional<Deviation>& mean_of(const std::optional<Approach>& approach) const {
        return approach ? one_way[*approach].mean : mean;
    }
    /// The mean of both directions, or of the one that was read.
    [[nodiscard]] const std::optional<Deviation>& trace_mean() const {
        return mean ? mean : one_way.positive.mean ? one_way.positive.mean : one_way.negative.mean;
    }
};

/// The targets of one series, rising.
using Targets = std::span<const TargetEvaluation>;

enum class Side { Max, Min };

/// A target that sets a parameter: an extreme of a range, or where a maximum stands.
struct SetBy {
    std::size_t index;  ///< place in SeriesEvaluation::targets (rising position)
    Position position;
    std::optional<Approach> approach;  ///< empty for a bidirectional quantity
    std::optional<Side> side;
    Deviation level;  ///< the exact level reached there (for A: mean ± 2 s), in the sense of the drawn curve
};

/// What the scatter of the readings adds to a range or a maximum, as laws in the base unit of the value (µm or µrad).
struct ScatterBias {
    Cumulants added{};              ///< the value is too large by so much; its mean is taken of all that may set the value
    Cumulants at_setters{};         ///< ordinary noise of what does set it
    double degrees_of_freedom = 0;  ///< of the pooled scatter

    /// The bias of the value, at most.
    [[nodiscard]] double up_to() const { return std::max(0.0, added.mean); }
};

/// One named result. Names are those of the evaluation output: A, A_positive, E, R, B, B_mean, M, straightness, angle, vdi_P ...
struct Parameter {
    std::string name;
    Evaluated<Deviation> value;
    std::vector<SetBy> set_by{};  ///< of equal places the first
    std::vector<SetBy> tied{};    ///< the other places that reach the same extreme
    std::optional<Deviation> stated{};
    std::optional<document::ReferenceLine> reference_line{};
    std::optional<Deviation> raw{};  ///< before the readings were corrected for the air; empty: they were not
    std::optional<Evaluated<ScatterBias>> scatter_bias{};  ///< empty: not a range or a maximum, or none is computed for it
};

/// One test condition of the standard. Reported, never enforced.
struct Condition {
    std::string name;
    std::optional<bool> holds;  ///< empty: the document does not say
    std::optional<double> found, asked;
    std::string unit;
    std::string text;  ///< one plain sentence, final English
};

struct ReferenceLineResult {
    document::ReferenceLine kind;
    Deviation straightness;  ///< range of the means of both directions about this line
    units::Angle slope;      ///< µm/m for a length error
    Deviation offset;        ///< the line at position 0
    Deviation mean_range;    ///< range of the bidirectional means about this line
    std::optional<Approach> one_way{};  ///< set where only one direction was read: the line, `straightness` and `mean_range` are of it
};

struct LocalStraightness {
    units::Length window;
    Deviation value;
    Position from, to;
    document::ReferenceLine reference;  ///< EndPoint: from the window's own chord; MinimumZone: its own zone
};

/// Straightness or positioning error moved to the tool point (conventions of the result document: rotation x t); of an angle its own
/// effect there, across its axis.
struct AtToolPoint {
    std::array<double, 3> offset_mm;
    DeviationUnit unit;  ///< to show lengths in
    struct Target {
        Position position;
        ByApproach<std::optional<Deviation>> effect{}, mean{};
    };
    std::vector<Target> targets{};
    std::optional<Deviation> largest{};  ///< range of the effect over both approaches: the zero of an angle is in none of it
    std::vector<SetBy> set_by{};         ///< places of the highest and the lowest effect
    std::vector<Parameter> parameters{};
    std::vector<std::string> from{};  ///< ids of the angle series used
};

/// What was taken off the readings of a series because the instrument took other air than the record has.
struct AirTakenOff {
    double um_per_m;  ///< so much too long it read
    Position zero;    ///< where nothing is taken off: the first target of the document. Another zero shifts all deviations alike
};

struct ExcludedReading {
    std::size_t run, target;  ///< places in the document, from 0
    std::string reason;
};

struct MissingReading {
    std::size_t run, target;
};

enum class SeriesKind { Positioning, Straightness, Angle, AngleSteps };
enum class Source { Runs, Stated };

struct SeriesEvaluation {
    std::string id, state, standard;  ///< standard: "ISO 230-2:2014" or "ISO 230-1:2012"
    document::ErrorSymbol error;
    SeriesKind kind;
    Source source;
    DeviationUnit unit;
    PositionUnit position_unit;
    std::vector<Condition> conditions{};
    std::vector<Parameter> parameters{};
    std::vector<ReferenceLineResult> lines{};
    std::vector<LocalStraightness> local{};
    std::vector<TargetEvaluation> targets{};  ///< rising position
    std::vector<ExcludedReading> excluded{};
    std::vector<MissingReading> missing{};
    std::optional<AtToolPoint> at_tool_point{};
    std::optional<Evaluated<AirTakenOff>> air_correction{};  ///< empty: not asked for

    /// What the correction for the air adds to a reading at a place: 0 where there is none.
    [[nodiscard]] Deviation air_at(const Position& place) const;
    /// Angle steps read both ways: how far the two profiles fail to close, height of the last station by the positive runs less that by
    /// the negative ones.
    std::optional<Deviation> closing_error{};
    std::optional<TraceEvaluation> trace{};
};

/// The line that a straightness error is drawn and judged about, or nullptr.
const ReferenceLineResult* headline_line(const SeriesEvaluation& series);

/// The series with this id, or nullptr. The pointer is into `all`.
const SeriesEvaluation* find_series(std::span<const SeriesEvaluation> all, std::string_view id);

/// The parameter called `name`, or nullptr.
const Parameter* find_parameter(const SeriesEvaluation& series, std::string_view name);

}  // namespace wayfolio::evaluate
