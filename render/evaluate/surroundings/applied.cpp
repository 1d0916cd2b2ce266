#include "evaluate/surroundings/surroundings.hpp"

#include "evaluate/surroundings/environment_record.hpp"
#include "evaluate/surroundings/wavelength.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {
namespace {

/// A laser counts wavelengths; one that assumes an index below the true one reads too long. Reading less truth, per metre:
/// index of the record - index applied.
Evaluated<double> air_against_record(const document::Document& document, const document::Series& series) {
    const auto& applied = *series.air_correction;
    if (!applied.applied) return NotEvaluated{"no air correction was applied"};
    if (!applied.air_C || !applied.pressure_hPa || !applied.humidity_percent)
        return NotEvaluated{"the air that the instrument assumed is not stated in full"};
    const auto recorded = mean_air(samples_during(document, span_of(series)));
    if (!recorded) return NotEvaluated{"no sample of the record has air temperature, pressure and humidity together"};
    const Air assumed{*applied.air_C, 100 * *applied.pressure_hPa, *applied.humidity_percent, recorded->co2_umol_per_mol};
    const double um = wavelength_of(document, series).um();
    return 1e6 * (ciddor_index(*recorded, um) - ciddor_index(assumed, um));
}

/// The instrument brings lengths to the reference temperature by taking coefficient x (T - T0) per metre off them. Taking off too
/// little leaves them too long.
Evaluated<double> expansion_against_record(const document::Document& document, const document::Series& series) {
    const auto* axis = document::find_axis(document, series.error.axis);
    if (!axis || !axis->expansion) return NotEvaluated{"the expansion coefficient of the axis is not stated"};
    const auto& applied = *series.expansion_correction;
    if (applied.applied && !applied.coefficient_um_per_m_K)
        return NotEvaluated{"the coefficient that the instrument applied is not stated"};
    const auto recorded = machine_temperatures(samples_during(document, span_of(series)), axis->sensors);
    if (!recorded) return NotEvaluated{"no temperature of the axis is recorded"};
    const double taken_off = applied.applied ? *applied.coefficient_um_per_m_K : 0;
    return (axis->expansion->value - taken_off) * (recorded->mean - reference_temperature_C(document));
}

/// The path between the optics that the instrument took no account of changes by its length times the change of index since it
/// was set to zero.
Evaluated<double> dead_path(const document::Document& document, const document::Series& series) {
    const double um = wavelength_of(document, series).um();
    std::optional<double> first;
    double largest = 0;
    for (const auto* sample : samples_during(document, span_of(series))) {
        const auto air = air_of(*sample);
        if (!air) continue;
        const double index = ciddor_index(*air, um);
        if (!first) first = index;
        if (std::abs(index - *first) > std::abs(largest)) largest = index - *first;
    }
    if (!first) return NotEvaluated{"no sample of the record has air temperature, pressure and humidity together"};
    return 1000 * *series.dead_path_mm * largest;
}

}  // namespace

std::vector<AppliedCorrection> evaluate_applied(const document::Document& document) {
    std::vector<AppliedCorrection> all;
    for (const auto& series : document.series) {
        if (series.error.kind() != document::ErrorKind::Positioning || series.error.axis_is_rotary()) continue;
        AppliedCorrection entry{series.id, {}, {}, {}};
        if (series.air_correction) entry.air_um_per_m = air_against_record(document, series);
        if (series.expansion_correction) entry.expansion_um_per_m = expansion_against_record(document, series);
        if (series.dead_path_mm) entry.dead_path_um = dead_path(document, series);
        if (entry.air_um_per_m || entry.expansion_um_per_m || entry.dead_path_um) all.push_back(std::move(entry));
    }
    return all;
}

}  // namespace wayfolio::evaluate
