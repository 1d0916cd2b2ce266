#pragma once
#include "document/influence.hpp"
#include "evaluate/evaluated.hpp"
#include "evaluate/numbers/air_index.hpp"
#include "evaluate/numbers/expansion.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

/// What set-up checks and recorded surroundings say about lengths. Laser reading minus true length carries the sign. Units are in the names
/// (um_per_m, temperature_C); an index is the refractive index of air, a plain number.
namespace wayfolio::evaluate {

enum class SetupVerdict { Pass, Fail, NotDecided };

/// The verdict on one set-up check, by the document's own limit: the program has none.
struct SetupOutcome {
    std::size_t check;  ///< place in setup.checks
    std::string name;
    SetupVerdict outcome;
    std::string reason;            ///< for NotDecided
    bool common_practice = false;  ///< to be printed "common practice, no source"
};

/// Misalignment of the beam to an axis, from setup checks that give its offset at two positions.
struct CosineError {
    std::string axis;
    double angle_rad = 0;
    double length_mm = 0;  ///< the axis's travel, else the distance between the two positions
    double um = 0, um_per_m = 0;
    double least_um = 0;              ///< what the last written digits of the offsets leave open
    bool resolved = true;             ///< false: the offsets differ by no more than their last digits can tell
    std::vector<std::size_t> checks;  ///< places in setup.checks
};

/// A record with the machine at rest: environmental variation error E_VE = largest less smallest reading
/// [definition from memory, ISO/TR 230-9:2005 Annex C], which counts when the record is at least as long as the test.
struct DriftEvaluation {
    std::string axis, quantity;
    double at_mm = 0;
    double um = 0;                       ///< E_VE
    double standard_um = 0;              ///< of one reading: E_VE / (2 sqrt 3)
    std::optional<double> minutes;       ///< length of the record, where its times can be read
    std::optional<double> test_minutes;  ///< from the first start to the last end of the runs of that error
    std::optional<bool> covers_test;
};

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
    double vacuum_wavelength_nm;  ///< that these hold for
    bool wavelength_stated;       ///< false: a helium-neon laser is assumed
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

/// A known effect on the lengths of one series that its readings hold: what the instrument took is not what record and set-up say.
struct KnownBias {
    /// What became of it. Added: U is enlarged by its size, for it exceeds a tenth of U(E). Open: it exceeds a tenth of U(E), or of E where
    /// there is no U, and no U of ours could be enlarged.
    enum class Treatment { Corrected, InBudget, Small, Added, Open };

    std::string series;
    document::Influence influence;  ///< AirCorrection, ExpansionCorrection, Cosine or DeadPath
    double um_per_m = 0;            ///< reading less truth, in proportion to length
    double um = 0;                  ///< size at any length, of either sign (dead path)
    double travel_m = 0;            ///< that was measured
    Treatment treatment = Treatment::Small;

    /// Reading less truth over the travel.
    [[nodiscard]] double over_travel_um() const { return um_per_m * travel_m + um; }
    /// "-7.6 µm": that, with its sign and two significant digits.
    [[nodiscard]] std::string text() const;
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

}  // namespace wayfolio::evaluate
