#include "evaluate/surroundings/surroundings.hpp"

#include "evaluate/surroundings/axis_length.hpp"
#include "evaluate/surroundings/environment_record.hpp"
#include "evaluate/surroundings/wavelength.hpp"

#include <algorithm>

namespace wayfolio::evaluate {

Evaluated<AirRecord> evaluate_air(const document::Document& document) {
    const auto samples = all_samples(document);
    if (samples.empty()) return NotEvaluated{"the document has no environment record"};
    const auto air = mean_air(samples);
    if (!air) return NotEvaluated{"no sample of the record has air temperature, pressure and humidity together"};
    const Wavelength wavelength = wavelength_of_record(document);
    AirRecord record{.mean = *air,
                     .ciddor = ciddor_index(*air, wavelength.um()),
                     .edlen = modified_edlen_index(*air, wavelength.um()),
                     .lowest = 0,
                     .highest = 0,
                     .sensitivity = air_sensitivity(*air, wavelength.um()),
                     .vacuum_wavelength_nm = wavelength.nm,
                     .wavelength_stated = wavelength.stated,
                     .samples = 0,
                     .change_over_travel = {}};
    for (const auto* sample : samples) {
        const auto there = air_of(*sample);
        if (!there) continue;
        const double index = ciddor_index(*there, wavelength.um());
        record.lowest = record.samples == 0 ? index : std::min(record.lowest, index);
        record.highest = record.samples == 0 ? index : std::max(record.highest, index);
        ++record.samples;
    }
    std::vector<std::string> seen;
    for (const auto& series : document.series) {
        const std::string& axis = series.error.axis;
        if (std::find(seen.begin(), seen.end(), axis) != seen.end()) continue;
        seen.push_back(axis);
        if (const auto length = axis_length_m(document, axis))
            record.change_over_travel.push_back({axis, *length, record.change_um_per_m() * *length});
    }
    return record;
}

std::vector<AxisExpansion> evaluate_expansion(const document::Document& document) {
    std::vector<AxisExpansion> all;
    if (!document.machine) return all;
    const double reference = reference_temperature_C(document);
    for (const auto& axis : document.machine->axes) {
        if (axis.kind == document::AxisKind::Rotary || !axis.expansion) continue;
        const auto recorded = machine_temperatures(all_samples(document), axis.sensors);
        if (!recorded) continue;
        AxisExpansion entry{.axis = axis.name,
                            .sensors = axis.sensors,
                            .coefficient = axis.expansion->value,
                            .mean_C = recorded->mean,
                            .lowest_C = recorded->lowest,
                            .highest_C = recorded->highest,
                            .reference_C = reference,
                            .um_per_m = 0,
                            .length_m = axis_length_m(document, axis.name),
                            .um = {},
                            .standard = {}};
        entry.um_per_m = expansion_um(1, entry.coefficient, entry.mean_C, reference);
        if (entry.length_m) {
            entry.um = entry.um_per_m * *entry.length_m;
            const double u_coefficient =
                axis.expansion->expanded_uncertainty.value_or(0) / axis.expansion->coverage_factor.value_or(2);
            // How well the sensors know the temperature is not in their record: that is for the document's contributors.
            entry.standard = expansion_uncertainty(*entry.length_m, entry.coefficient, u_coefficient, entry.mean_C, 0, reference);
        }
        all.push_back(std::move(entry));
    }
    return all;
}

EnvironmentEvaluation evaluate_environment(const document::Document& document) {
    return {evaluate_air(document), evaluate_expansion(document), evaluate_applied(document), evaluate_drift(document),
            surroundings_during_runs(document)};
}

}  // namespace wayfolio::evaluate
