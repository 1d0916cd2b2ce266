#pragma once
#include "evaluate/numbers/air_index.hpp"
#include "evaluate/surroundings/drift.hpp"
#include "evaluate/evaluated.hpp"
#include "evaluate/numbers/expansion.hpp"
#include "evaluate/series_evaluation.hpp"

/// What the recorded surroundings say about lengths. Laser reading minus true length carries the sign.
namespace wayfolio::evaluate {

/// Something per metre, over the whole travel of one linear axis.
struct OverTravel {
    std::string axis;
    double length_m, um;
};

/// The air of the record: its mean, the index there, and how far the index moved.
struct AirRecord {
    Air mean;
    double ciddor, edlen;    ///< index at the mean
    double lowest, highest;  ///< Ciddor's index over the samples
    AirSensitivity sensitivity;
    std::size_t samples;  ///< those with temperature, pressure and humidity
    std::vector<OverTravel> change_over_travel;

    [[nodiscard]] double difference() const { return ciddor - edlen; }
    [[nodiscard]] double change_um_per_m() const { return 1e6 * (highest - lowest); }
};

/// Expansion of an axis from the reference temperature to what its sensors recorded.
struct AxisExpansion {
    std::string axis;
    std::vector<std::string> sensors;
    double coefficient;  ///< µm/(m K)
    double mean_C, lowest_C, highest_C, reference_C;
    double um_per_m;
    std::optional<double> length_m, um;  ///< over the travel
    /// Over the travel, from the coefficient's stated uncertainty. How well the sensors know the temperature is not in their
    /// record: the document's contributors have to say it.
    std::optional<ExpansionUncertainty> standard;
};

/// What the instrument applied to a series against what the record says. Positive: it read too long.
struct AppliedCorrection {
    std::string series;
    std::optional<Evaluated<double>>
        air_um_per_m;  ///< index of the record less index applied; empty where no air correction is stated
    std::optional<Evaluated<double>>
        expansion_um_per_m;  ///< (coefficient of the axis less coefficient applied) x (temperature - reference)
    std::optional<Evaluated<double>>
        dead_path_um;  ///< largest change of index since the first sample of the series, times the dead path
};

/// How far the surroundings moved during one run: between its start and its end, straight lines between samples.
struct RunSurroundings {
    std::string series;
    std::size_t run;
    double air_K, machine_K, index_um_per_m;
};

struct EnvironmentEvaluation {
    Evaluated<AirRecord> air = NotEvaluated{"the document has no environment record"};
    std::vector<AxisExpansion> expansion;
    std::vector<AppliedCorrection> applied;
    std::vector<DriftEvaluation> drift;
    std::vector<RunSurroundings> during_runs;
};

EnvironmentEvaluation evaluate_environment(const document::Document& document);

/// The parts of evaluate_environment().
Evaluated<AirRecord> evaluate_air(const document::Document& document);
std::vector<AxisExpansion> evaluate_expansion(const document::Document& document);
std::vector<AppliedCorrection> evaluate_applied(const document::Document& document);
std::vector<RunSurroundings> surroundings_during_runs(const document::Document& document);

}  // namespace wayfolio::evaluate
