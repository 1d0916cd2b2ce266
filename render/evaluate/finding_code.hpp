#pragma once
#include <span>
#include <string_view>

namespace wayfolio::evaluate {

/// What a finding is about. Readings, set-up, conditions of the standard and evidence need the machine: what they ask for cannot
/// be had any more once it is left. Papers can wait for the desk. Information asks for nothing.
enum class Concern { Readings, Setup, Conditions, Evidence, Papers, Information };

/// What a finding of `check` says, whatever its wording: codes stay the same from version to version. The order is that of
/// importance on site: what makes readings worthless, what cannot be repeated later, what weakens a result, papers.
enum class FindingCode {
    PositionsAsReadings,
    SignTurned,
    UnitMixedUp,
    DecimalSlip,
    OrderReversed,
    ApproachMixedUp,
    PlanesMixedUp,
    PositionsSwapped,
    ReadingsSwapped,
    RunCopied,
    SensorStuck,
    TargetAlwaysSame,
    ValueOffByFactor,
    SetupCheckFailed,
    SeriesWithoutResult,
    TraceWithoutRuns,
    LimitLacksReadings,
    TargetsUnread,
    PlannedSeriesOpen,
    TargetsBeyondTravel,
    TargetsReadOneWay,
    OneDirectionOnly,
    FewerRunsThanAgreed,
    FewerRunsThanPlanned,
    OrderNotAsPlanned,
    TooFewRuns,
    NotOneApproachEachWay,
    NotLongAxisTest,
    TooFewTargets,
    TargetsTooFarApart,
    TargetsEvenlySpaced,
    PrincipalPositionsMissing,
    MeasuredTravelTooLong,
    ConditionNotMet,
    InstrumentMissing,
    CertificateExpired,
    CertificateMissing,
    CalibratedAfterMeasurement,
    SeriesInstrumentMissing,
    EnvironmentMissing,
    MachineTemperaturesMissing,
    DriftRecordMissing,
    SetupChecksMissing,
    SetupCheckOpen,
    MeasurementLineOpen,
    SeriesTimeMissing,
    MachineConditionMissing,
    DriftOverRuns,
    GrowthOverRuns,
    RunApart,
    RunsJump,
    MissedCount,
    PossibleOutlier,
    StatesOverDifferentTravel,
    StatesOverDifferentTargets,
    ReferenceNotAlongAxis,
    CosineError,
    CosineNotResolved,
    BiasNotCorrected,
    EnvironmentMoved,
    DriftRecordShort,
    CompensationNotSupported,
    ReadingsNotTested,
    LimitLacksPapers,
    LimitsDiffer,
    StatedValueDiffers,
    AirCorrectionNotPossible,
    RunsUnequal,
    ReversalChangesSign,
    ReversalChangesAlongAxis,
    PeriodicError,
    ReferenceTemperature,
    ExpansionCoefficientMissing,
    TraceabilityMissing,
    WavelengthAssumed,
    MissingForAccreditation,
    MissingForTestReport,
    MissingForDecision,
    MissingForUncertainty,
};

/// A code, its word (kebab-case, in text and JSON and in findings.schema.json) and what it is about.
struct KnownFinding {
    FindingCode code;
    std::string_view word;
    Concern concern;
};

/// Every code once, in the order of FindingCode.
std::span<const KnownFinding> known_findings();

std::string_view word(FindingCode code);
std::string_view word(Concern concern);
Concern concern(FindingCode code);

/// Whether the machine is needed to settle it.
bool at_machine(FindingCode code);

}  // namespace wayfolio::evaluate
