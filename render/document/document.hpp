#pragma once
#include "document/influence.hpp"
#include "document/series.hpp"
#include "input/byte_source.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

/// The result document as plain structs, born complete by read_document(). What the file did not say is an empty optional or vector.
namespace wayfolio::document {

struct Party {
    std::string name, contact;
    std::vector<std::string> address;
};

struct Laboratory : Party {
    std::string accreditation;
    std::string country;  ///< ISO 3166-1 alpha-2, empty if not stated
    std::string logo;  ///< file beside the document, or a data: URI; empty if none
    struct Capability {
        std::string error, parameter;
        Deviation expanded;
        DeviationUnit unit;
    };
    std::vector<Capability> capability;  ///< smallest expanded uncertainty the laboratory may claim
};

struct Person {
    std::string role, name;
};

struct Replaces {
    std::string number, issued, reason;
    std::optional<int> revision;
};

/// When the customer and the laboratory agreed to measure again (ISO/IEC 17025:2017, 7.8.4.3: a recommendation only where it was agreed).
struct AgreedInterval {
    int months = 0;
    std::string agreed_with;
};

enum class Status { Draft, Final };

/// Whose place the measurement was made at.
enum class PlaceKind { Laboratory, Customer, LaboratoryBranch, CustomerBranch, Other };

struct Job {
    std::string number, title, order, place, measured_from, measured_to, issued, method;
    Status status = Status::Final;
    bool status_stated = false;
    std::optional<PlaceKind> place_kind;
    std::optional<int> revision;
    std::optional<Party> customer;
    std::optional<Laboratory> laboratory;
    std::optional<Replaces> replaces;
    std::optional<AgreedInterval> agreed_interval;
    std::vector<Person> people;
    std::vector<std::string> remarks;
    std::string data_notice;  ///< what every page says of the data, e.g. "Invented data for demonstration"; empty if none
};

enum class AxisKind { Linear, Rotary };
enum class Moves { Tool, Workpiece };

/// Linear thermal expansion coefficient in µm/(m K).
struct Expansion {
    double value = 0;
    std::optional<double> expanded_uncertainty, coverage_factor;
};

struct Travel {
    Position from, to;
    PositionUnit unit;
};

struct Axis {
    std::string name;
    AxisKind kind = AxisKind::Linear;
    std::optional<Moves> moves;
    std::vector<std::string> sensors;
    std::optional<Travel> travel;
    std::optional<Expansion> expansion;
};

struct Machine {
    std::string kind, maker, model, serial, controller;
    std::string condition;  ///< in which it was found, in the document's words (ISO/IEC 17025 7.8.2.1 g)
    std::string vertical;  ///< name of the vertical axis by ISO 841, empty if not stated
    std::optional<double> least_increment_um;
    std::vector<Axis> axes;
};

/// An expanded uncertainty as a certificate states it: U = constant + per_metre x length (a sum, not a root of squares).
struct StatedCapability {
    double constant = 0, per_metre = 0;  ///< µm and µm/m, or µrad and µrad/m
};

struct Instrument {
    std::string id, kind, maker, model, serial, certificate, calibrated, due;
    std::string certified_by, traceable_to;  ///< who issued the certificate; through what it leads to the SI
    std::optional<double> vacuum_wavelength_nm;  ///< of a laser interferometer
    std::optional<StatedCapability> positioning, straightness, angle;
    std::optional<double> coverage_factor;
};

struct EnvironmentSample {
    std::string time;
    std::optional<double> air_C, pressure_hPa, humidity_percent, co2_ppm;
    std::vector<std::pair<std::string, double>> machine_C;  ///< by sensor, in the file's order
};

struct Environment {
    std::optional<double> reference_temperature_C;
    std::vector<EnvironmentSample> samples;
    std::optional<Origin> origin;  ///< of the samples
};

/// Where a beam's offset was read. A reflector that stands off the beam by d returns it displaced by 2 d.
enum class ReadOn { OutgoingBeam, ReturningBeam };

struct SetupCheck {
    std::string name, axis, unit, basis;
    ReadOn read_on = ReadOn::OutgoingBeam;
    std::optional<double> reading, at_most, at_least, position;  ///< position in the axis's own unit (mm or deg)
    std::optional<bool> done;
};

struct MeasurementLine {
    std::string axis;
    std::vector<std::pair<std::string, double>> at_mm;  ///< where the axes not under test stood
    std::optional<std::array<double, 3>> offset_to_tool_point_mm;
};

struct Setup {
    std::vector<SetupCheck> checks;
    std::vector<MeasurementLine> lines;
    std::optional<double> feed_mm_per_min, feed_deg_per_min, dwell_s;
    std::string warm_up;
};

enum class Standard { Iso230_2_2014, Iso230_2_2006, Iso230_2_1997 };
enum class OlderStandard { Iso230_2_1988, VdiDgq3441_1977 };
enum class ReferenceLine { EndPoint, LeastSquares, MinimumZone };
enum class DecisionRule { Simple, GuardBand, GuardBandBothSides, Iso14253_1, NonBinary };
enum class Coverage { K2, Percent95 };

struct MonteCarloRequest {
    std::size_t trials = 1'000'000;
    std::uint64_t seed = 1;
    /// Trials beyond these are not kept in memory but drawn again for each of the three passes over them.
    static constexpr std::size_t most_kept = 1'000'000;
};

/// Where readings are to be corrected for the air that the instrument did not know.
enum class AirCorrectionRequest { FromRecord };

/// What the document asks for; an empty optional means the default, which the method note then names.
struct EvaluationRequest {
    std::optional<Standard> standard;
    std::vector<OlderStandard> also;
    std::optional<ReferenceLine> straightness_reference;
    std::optional<std::vector<double>> local_straightness_mm;
    std::optional<DecisionRule> decision_rule;
    std::optional<Coverage> coverage;
    std::optional<MonteCarloRequest> monte_carlo;
    std::optional<bool> hints;
    std::optional<AirCorrectionRequest> air_correction;
    std::vector<std::string> agreed;
};

enum class Distribution { Normal, Rectangular, Triangular, UShaped };

struct Contributor {
    std::string name, basis, correlated;  ///< contributors with one non-empty `correlated` name are added before squaring
    std::vector<std::string> applies_to;  ///< error symbols
    enum class Form { Standard, HalfWidth, Expanded } form = Form::Standard;
    double value = 0;                     ///< in `unit`
    std::string unit;                     ///< a deviation unit; "um/m" on a length error is proportional to length
    std::optional<double> coverage_factor, degrees_of_freedom;
    Distribution distribution = Distribution::Normal;
    std::optional<Influence> influence{};  ///< what of the program's own it takes the place of
};

struct StatedUncertainty {
    std::string series, parameter;
    Deviation expanded;
    DeviationUnit unit;
    double coverage_factor = 2;
};

struct UncertaintyInput {
    std::vector<Contributor> contributors;
    std::vector<StatedUncertainty> stated;
};

struct DriftRecord {
    std::string axis, quantity;
    double at_mm = 0;
    std::vector<std::pair<std::string, double>> samples_um;  ///< time, reading
};

struct SquarenessRequest {
    std::array<std::string, 2> axes, series;
    std::optional<double> square_error_urad, square_expanded_urad, square_coverage_factor;
    std::string square_serial, square_certificate;
    std::optional<Tolerance> tolerance;
};

enum class TableKind { Bidirectional, Positive, Negative, Both };

/// Spacing and reference in mm or deg, increment in µm or arcsec, by the axis's kind.
struct CompensationRequest {
    std::string axis, series;
    double spacing = 0, reference = 0, increment = 0;
    TableKind table = TableKind::Bidirectional;
};

/// A side file that came with the document (trace, logo), byte for byte as given.
struct SideFile {
    std::string name, bytes;
};

/// A side file that is too large to be held, and to travel inside a report: a record on the fly of millions of samples. It is known by its
/// digest, and read again where it lies.
struct LargeSideFile {
    std::string name, sha256;
    input::ByteSource source;
};

struct Document {
    std::string file;     ///< the name it was read under, for messages
    std::string bytes;    ///< as given
    std::string sha256;   ///< of `bytes`, lower-case hex
    std::vector<std::filesystem::path> files;  ///< that it was read from, side files among them; "-" is standard input
    Job job;
    std::optional<Machine> machine;
    std::vector<Instrument> instruments;
    std::optional<Environment> environment;
    std::optional<Setup> setup;
    std::vector<Series> series;
    std::vector<Series> planned;  ///< series that wait for their readings: they stand behind the others in the file
    EvaluationRequest evaluation;
    UncertaintyInput uncertainty;
    std::vector<DriftRecord> drift;
    std::vector<SquarenessRequest> squareness;
    std::vector<CompensationRequest> compensation;
    std::vector<OriginFile> facts;  ///< files whose facts went into the document
    std::vector<SideFile> side_files;
    std::vector<LargeSideFile> large_side_files;
};

/// The axis called `name`, or nullptr.
const Axis* find_axis(const Document& document, std::string_view name);
const Instrument* find_instrument(const Document& document, std::string_view id);
/// What people call it: "laser interferometer L-131". Its id, which stands for nothing outside the document, only where it says neither.
std::string name_of_instrument(const Instrument& instrument);
const Series* find_series(const Document& document, std::string_view id);

/// The line that a series was measured on: the one that it names, else the only one of its axis; nullptr where there is none or
/// several.
const MeasurementLine* measurement_line(const Document& document, const Series& series);
/// Lines along the axis of a series that does not name its own.
std::size_t open_measurement_lines(const Document& document, const Series& series);

}  // namespace wayfolio::document
