#pragma once
#include "document/approach.hpp"
#include "document/error_symbol.hpp"
#include "units/deviation.hpp"
#include "units/position.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace wayfolio::document {

using units::Deviation;
using units::DeviationUnit;
using units::Position;
using units::PositionUnit;

/// A file that readings were gathered from, or by.
struct OriginFile {
    std::string file, sha256;  ///< the digest in lower-case hex, empty where not stated
    std::string kept;          ///< the side file that holds it, byte for byte; empty where it is not kept
};

/// Where readings came from.
struct Origin {
    std::vector<OriginFile> files;
    std::optional<OriginFile> mapping;  ///< what said which column is what
    std::string series;                 ///< the id that the mapping has for them, empty where it is none
};

struct Exclusion {
    std::size_t target;  ///< place in Series::targets, from 0
    std::string reason;
};

/// One run over the targets in one approach direction.
struct Run {
    Approach approach = Approach::Positive;
    std::string started, ended;
    /// One per target, always actual minus target whatever the document's sign; empty where missing (null).
    /// Excluded readings keep their value here: ask Run::used().
    /// Angle steps: the first is always empty, for the first station has no reading (it is neither missing nor excluded);
    /// reading i of the file stands at station i + 1, so that here, too, there is one place per target.
    std::vector<std::optional<Deviation>> deviations;
    std::vector<Exclusion> excluded;

    [[nodiscard]] const Exclusion* exclusion(std::size_t target) const;
    /// The reading at `target` if it takes part in the evaluation: neither missing nor excluded.
    [[nodiscard]] std::optional<Deviation> used(std::size_t target) const;
};

struct TraceSample {
    Position position;
    Deviation value;
};

using TakeSamples = std::function<void(std::span<const TraceSample>)>;

/// Samples that are too many to be held: they are read from their file again at each walk.
struct ManySamples {
    std::size_t count;
    Position low, high;               ///< the way that they cover
    std::vector<TraceSample> begin;   ///< some of them, from the first on
    std::string sha256;               ///< of the file
    std::function<void(const TakeSamples&)> walk;  ///< @throws input::InputMissing when the file is not what it was any more
};

/// An on-the-fly record, instead of or beside runs.
struct Trace {
    std::string file;  ///< empty when the samples stood in the document
    std::optional<Approach> approach;
    std::optional<double> pitch;  ///< of what may repeat itself along the axis, in Series::position_unit
    std::optional<double> cutoff;  ///< of the low-pass that samples are filtered by as well, in Series::position_unit
    std::vector<TraceSample> samples;         ///< empty where they are many
    std::shared_ptr<const ManySamples> many;  ///< in place of `samples`

    [[nodiscard]] std::size_t count() const { return many ? many->count : samples.size(); }
    /// Hands on all samples in the order of time, some at a time.
    void walk(const TakeSamples& take) const {
        if (many)
            many->walk(take);
        else
            take(samples);
    }
};

/// A number the analyst wrote, with half a unit of its last written digit (for the comparison with ours).
struct StatedValue {
    std::string parameter;
    Deviation value;
    Deviation half_last_digit;
};

struct StatedTarget {
    Position position;
    ByApproach<std::optional<Deviation>> mean{}, s{};
};

struct ExpansionCorrection {
    bool applied = false;
    std::optional<double> coefficient_um_per_m_K;
};

struct AirCorrection {
    bool applied = false;
    std::string equation;
    std::optional<double> air_C, pressure_hPa, humidity_percent;
};

/// A limit on one parameter.
struct Tolerance {
    std::string parameter, source;
    Deviation limit;
    DeviationUnit unit;
    std::optional<double> length_mm;  ///< for parameter "local"
};

struct Target {
    Position position;
    double written;  ///< the number in the file, in Series::position_unit
};

/// The order in which the runs of a series are to be made.
enum class RunOrder { Alternating, OneApproachFirst };

/// What was to be measured, written down before.
struct Plan {
    ByApproach<std::size_t> runs{};
    RunOrder order = RunOrder::Alternating;
    std::optional<std::uint64_t> seed;  ///< of the random part in the spacing of the targets
};

struct Series {
    std::string id, state, instrument;
    ErrorSymbol error;
    DeviationUnit unit = units::micrometre;
    PositionUnit position_unit = units::position_millimetre;
    bool sign_stated = false, target_minus_actual = false;  ///< what the file said; readings here are always actual minus target
    std::optional<std::size_t> measurement_line;  ///< as the document names it: ask measurement_line() of document.hpp
    std::optional<Origin> origin;
    std::optional<Plan> plan;
    std::string warm_up;
    std::vector<std::string> remarks;
    std::vector<Target> targets;  ///< in the file's order
    std::vector<Run> runs;
    std::optional<Trace> trace;
    std::vector<Tolerance> tolerances;
    std::vector<StatedValue> stated;
    std::vector<StatedTarget> stated_targets;
    std::optional<double>
        steps_base_mm;  ///< set for kind "steps": straightness by angle steps; `unit` is then an angle, stated values are in um
    std::optional<ExpansionCorrection> expansion_correction;
    std::optional<AirCorrection> air_correction;
    std::optional<double> dead_path_mm;
};

}  // namespace wayfolio::document
