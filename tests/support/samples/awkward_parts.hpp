#pragma once
#include "support/samples/measured_series.hpp"
#include "support/samples/sample_set.hpp"

namespace wayfolio::samples {

/// A document of one or more series with nothing else in it.
inline Json bare_document(const std::string& number, const std::string& title, Json series) {
    return {
        {"format", "wayfolio-result"},
        {"version", 1},
        {"job", {{"number", number}, {"title", title}, {"data_notice", "Invented data for demonstration"}, {"status", "final"}}},
        {"series", std::move(series)}};
}

/// A series of `axis` with nothing that is not asked for.
inline Json bare_series(const LinearAxis& axis, const std::string& symbol, const std::string& id, const RunPlan& plan,
                        Noise& noise) {
    Json series = measured_series(axis, symbol, "as-found", plan, noise);
    series["id"] = id;
    series.erase("instrument");
    series.erase("measurement_line");
    for (Json& run : series["runs"]) {
        run.erase("started");
        run.erase("ended");
    }
    return series;
}

/// An axis of middling quality, `length` mm long.
inline LinearAxis middling_axis(double length) {
    LinearAxis a;
    a.to = length;
    a.lead_um_per_m = 3;
    a.lead_bow_um = 1.5;
    a.reversal_start_um = -1;
    a.reversal_end_um = -2;
    a.growth_um_per_m = 0.3;
    a.length_noise_um = 0.3;
    a.dip_um = 3;
    a.dip_at = 0.4 * length;
    a.dip_half_width = 0.25 * length;
    a.side_bow_um = 2;
    a.twist_urad = 12;
    a.beam_y_um_per_m = 1;
    a.beam_z_um_per_m = -1;
    a.side_noise_um = 0.2;
    a.angle_noise_urad = 0.3;
    return a;
}

Json many_targets_one_run();
Json one_direction();
Json all_equal();
Json no_limits();
Json long_names();
Json greek_and_cyrillic();
Json script_without_font();
Json eight_series();
Json positive_and_negative_reversal();
Json draft_with_internal_remarks();
Json logo_beside();
Json logo_inside();
Json inches_descending();
Json two_axes_and_square();
Json compensation_tables();
Json angle_steps();
Json stated_only();
Json outcomes_with_guard_band();
Json outcomes_on_both_sides();
Json outcomes_with_conditions();
Json weak_verdict();
Json two_turns();
Json surroundings_and_budgets();
Json inch_job();
Json rotary_in_degrees();
Json rotary_found_and_left();
Json whole_micrometres();
Json millimetres_and_slopes();
Json tiny_values();
Json trace_beside();
std::string trace_file();
Json long_trace();
Json many_targets_many_runs();

}  // namespace wayfolio::samples
