#include "evaluate/finding_code.hpp"

#include <array>

namespace wayfolio::evaluate {
namespace {

// clang-format off
constexpr std::array known_codes{
    KnownFinding{FindingCode::PositionsAsReadings, "positions-as-readings", Concern::Readings},
    KnownFinding{FindingCode::SignTurned, "sign-turned", Concern::Readings},
    KnownFinding{FindingCode::UnitMixedUp, "unit-mixed-up", Concern::Readings},
    KnownFinding{FindingCode::DecimalSlip, "decimal-slip", Concern::Readings},
    KnownFinding{FindingCode::OrderReversed, "order-reversed", Concern::Readings},
    KnownFinding{FindingCode::ApproachMixedUp, "approach-mixed-up", Concern::Readings},
    KnownFinding{FindingCode::PlanesMixedUp, "planes-mixed-up", Concern::Readings},
    KnownFinding{FindingCode::PositionsSwapped, "positions-swapped", Concern::Readings},
    KnownFinding{FindingCode::ReadingsSwapped, "readings-swapped", Concern::Readings},
    KnownFinding{FindingCode::RunCopied, "run-copied", Concern::Readings},
    KnownFinding{FindingCode::SensorStuck, "sensor-stuck", Concern::Readings},
    KnownFinding{FindingCode::TargetAlwaysSame, "target-always-same", Concern::Readings},
    KnownFinding{FindingCode::ValueOffByFactor, "value-off-by-factor", Concern::Readings},
    KnownFinding{FindingCode::SetupCheckFailed, "set-up-check-failed", Concern::Setup},
    KnownFinding{FindingCode::SeriesWithoutResult, "series-without-result", Concern::Readings},
    KnownFinding{FindingCode::TraceWithoutRuns, "trace-without-runs", Concern::Readings},
    KnownFinding{FindingCode::LimitLacksReadings, "limit-lacks-readings", Concern::Readings},
    KnownFinding{FindingCode::TargetsUnread, "targets-unread", Concern::Readings},
    KnownFinding{FindingCode::PlannedSeriesOpen, "planned-series-open", Concern::Readings},
    KnownFinding{FindingCode::TargetsBeyondTravel, "targets-beyond-travel", Concern::Readings},
    KnownFinding{FindingCode::TargetsReadOneWay, "targets-read-one-way", Concern::Readings},
    KnownFinding{FindingCode::OneDirectionOnly, "one-direction-only", Concern::Conditions},
    KnownFinding{FindingCode::FewerRunsThanAgreed, "fewer-runs-than-agreed", Concern::Conditions},
    KnownFinding{FindingCode::FewerRunsThanPlanned, "fewer-runs-than-planned", Concern::Conditions},
    KnownFinding{FindingCode::OrderNotAsPlanned, "order-not-as-planned", Concern::Conditions},
    KnownFinding{FindingCode::TooFewRuns, "too-few-runs", Concern::Conditions},
    KnownFinding{FindingCode::NotOneApproachEachWay, "not-one-approach-each-way", Concern::Conditions},
    KnownFinding{FindingCode::NotLongAxisTest, "not-long-axis-test", Concern::Conditions},
    KnownFinding{FindingCode::TooFewTargets, "too-few-targets", Concern::Conditions},
    KnownFinding{FindingCode::TargetsTooFarApart, "targets-too-far-apart", Concern::Conditions},
    KnownFinding{FindingCode::TargetsEvenlySpaced, "targets-evenly-spaced", Concern::Conditions},
    KnownFinding{FindingCode::PrincipalPositionsMissing, "principal-positions-missing", Concern::Conditions},
    KnownFinding{FindingCode::MeasuredTravelTooLong, "measured-travel-too-long", Concern::Conditions},
    KnownFinding{FindingCode::ConditionNotMet, "condition-not-met", Concern::Conditions},
    KnownFinding{FindingCode::InstrumentMissing, "instrument-missing", Concern::Evidence},
    KnownFinding{FindingCode::CertificateExpired, "certificate-expired", Concern::Evidence},
    KnownFinding{FindingCode::CertificateMissing, "certificate-missing", Concern::Evidence},
    KnownFinding{FindingCode::CalibratedAfterMeasurement, "calibrated-after-measurement", Concern::Evidence},
    KnownFinding{FindingCode::SeriesInstrumentMissing, "series-instrument-missing", Concern::Evidence},
    KnownFinding{FindingCode::EnvironmentMissing, "environment-missing", Concern::Evidence},
    KnownFinding{FindingCode::MachineTemperaturesMissing, "machine-temperatures-missing", Concern::Evidence},
    KnownFinding{FindingCode::DriftRecordMissing, "drift-record-missing", Concern::Evidence},
    KnownFinding{FindingCode::SetupChecksMissing, "set-up-checks-missing", Concern::Evidence},
    KnownFinding{FindingCode::SetupCheckOpen, "set-up-check-open", Concern::Evidence},
    KnownFinding{FindingCode::MeasurementLineOpen, "measurement-line-open", Concern::Evidence},
    KnownFinding{FindingCode::SeriesTimeMissing, "series-time-missing", Concern::Evidence},
    KnownFinding{FindingCode::MachineConditionMissing, "machine-condition-missing", Concern::Evidence},
    KnownFinding{FindingCode::DriftOverRuns, "drift-over-runs", Concern::Readings},
    KnownFinding{FindingCode::GrowthOverRuns, "growth-over-runs", Concern::Readings},
    KnownFinding{FindingCode::RunApart, "run-apart", Concern::Readings},
    KnownFinding{FindingCode::RunsJump, "runs-jump", Concern::Readings},
    KnownFinding{FindingCode::MissedCount, "missed-count", Concern::Readings},
    KnownFinding{FindingCode::PossibleOutlier, "possible-outlier", Concern::Readings},
    KnownFinding{FindingCode::StatesOverDifferentTravel, "states-over-different-travel", Concern::Readings},
    KnownFinding{FindingCode::StatesOverDifferentTargets, "states-over-different-targets", Concern::Readings},
    KnownFinding{FindingCode::ReferenceNotAlongAxis, "reference-not-along-axis", Concern::Readings},
    KnownFinding{FindingCode::CosineError, "cosine-error", Concern::Setup},
    KnownFinding{FindingCode::CosineNotResolved, "cosine-not-resolved", Concern::Setup},
    KnownFinding{FindingCode::BiasNotCorrected, "bias-not-corrected", Concern::Setup},
    KnownFinding{FindingCode::EnvironmentMoved, "environment-moved", Concern::Setup},
    KnownFinding{FindingCode::DriftRecordShort, "drift-record-short", Concern::Setup},
    KnownFinding{FindingCode::CompensationNotSupported, "compensation-not-supported", Concern::Readings},
    KnownFinding{FindingCode::ReadingsNotTested, "readings-not-tested", Concern::Readings},
    KnownFinding{FindingCode::LimitLacksPapers, "limit-lacks-papers", Concern::Papers},
    KnownFinding{FindingCode::LimitsDiffer, "limits-differ", Concern::Papers},
    KnownFinding{FindingCode::StatedValueDiffers, "stated-value-differs", Concern::Papers},
    KnownFinding{FindingCode::AirCorrectionNotPossible, "air-correction-not-possible", Concern::Papers},
    KnownFinding{FindingCode::RunsUnequal, "runs-unequal", Concern::Information},
    KnownFinding{FindingCode::ReversalChangesSign, "reversal-changes-sign", Concern::Information},
    KnownFinding{FindingCode::ReversalChangesAlongAxis, "reversal-changes-along-axis", Concern::Information},
    KnownFinding{FindingCode::PeriodicError, "periodic-error", Concern::Information},
    KnownFinding{FindingCode::ReferenceTemperature, "reference-temperature", Concern::Papers},
    KnownFinding{FindingCode::ExpansionCoefficientMissing, "expansion-coefficient-missing", Concern::Papers},
    KnownFinding{FindingCode::TraceabilityMissing, "traceability-missing", Concern::Papers},
    KnownFinding{FindingCode::WavelengthAssumed, "wavelength-assumed", Concern::Papers},
    KnownFinding{FindingCode::MissingForAccreditation, "missing-for-accreditation", Concern::Papers},
    KnownFinding{FindingCode::MissingForTestReport, "missing-for-test-report", Concern::Papers},
    KnownFinding{FindingCode::MissingForDecision, "missing-for-decision", Concern::Papers},
    KnownFinding{FindingCode::MissingForUncertainty, "missing-for-uncertainty", Concern::Papers},
};
// clang-format on

constexpr bool codes_stand_in_order() {
    for (std::size_t i = 0; i < known_codes.size(); ++i)
        if (static_cast<std::size_t>(known_codes[i].code) != i) return false;
    return known_codes.back().code == FindingCode::MissingForUncertainty;
}
static_assert(codes_stand_in_order());

const KnownFinding& of_code(FindingCode code) { return known_codes[static_cast<std::size_t>(code)]; }

}  // namespace

std::span<const KnownFinding> known_findings() { return known_codes; }

std::string_view word(FindingCode code) { return of_code(code).word; }
std::string_view word(Concern concern) {
    switch (concern) {
        case Concern::Readings:
            return "readings";
        case Concern::Setup:
            return "set-up";
        case Concern::Conditions:
            return "conditions";
        case Concern::Evidence:
            return "evidence";
        case Concern::Papers:
            return "papers";
        case Concern::Information:
            return "information";
    }
    return "";
}

Concern concern(FindingCode code) { return of_code(code).concern; }

bool at_machine(FindingCode code) {
    return concern(code) != Concern::Papers && concern(code) != Concern::Information;
}

}  // namespace wayfolio::evaluate
