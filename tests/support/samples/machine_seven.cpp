#include "support/samples/machine_seven.hpp"

namespace wayfolio::samples {

Site site_of_seven() {
    return {"Sample Customer Works", "Hall 2, 1 Example Street", "00000 Sampletown", "At the customer's, hall 2, bay 4"};
}

Json machine_seven() {
    return invented_machine({"machining centre", "Demonstrator M", "D-0007"},
                            Json::array({{{"name", "X"},
                                          {"kind", "linear"},
                                          {"moves", "tool"},
                                          {"sensors", {"X bed near", "X bed far"}},
                                          {"travel", {{"from", 0}, {"to", 1600}, {"unit", "mm"}}},
                                          {"expansion_um_per_m_K",
                                           {{"value", 11.5}, {"expanded_uncertainty", 1.5}, {"coverage_factor", 2}}}}}));
}

LinearAxis latest_of_seven() {
    LinearAxis a;
    a.to = 1600;
    a.lead_um_per_m = 2.6;
    a.lead_bow_um = 1.8;
    a.periodic_um = 0.5;
    a.period_mm = 40;  // pitch of the ball screw
    a.reversal_start_um = -0.9;
    a.reversal_end_um = -2.4;
    a.growth_um_per_m = 0.6;
    a.length_noise_um = 0.22;
    a.dip_um = 3.8;
    a.dip_at = 900;
    a.dip_half_width = 420;
    a.side_bow_um = 2.4;
    a.side_wave_um = 0.5;
    a.twist_urad = 11;
    a.beam_y_um_per_m = 0.9;
    a.beam_z_um_per_m = -1.3;
    a.side_noise_um = 0.18;
    a.side_reversal_um = 0.4;
    a.angle_noise_urad = 0.35;
    a.angle_reversal_urad = 0.7;
    return a;
}

std::vector<double> targets_of_seven(Noise& noise) { return random_targets(latest_of_seven(), 13, noise); }

Json positioning_of_seven(const LinearAxis& axis, const std::string& state, const RunPlan& plan, Noise& noise) {
    const std::string specification = "purchase specification, clause 4";
    Json exx = measured_series(axis, "EXX", state, plan, noise);
    exx["tolerances"] = {tolerance("A", 12, "um", specification), tolerance("E", 9, "um", specification),
                         tolerance("R", 5, "um", specification), tolerance("B", 3, "um", specification),
                         tolerance("M", 8, "um", specification)};
    exx["expansion_correction"] = {{"applied", true}, {"coefficient_um_per_m_K", 11.5}};
    return exx;
}

Json stated_uncertainty(const std::string& series, const std::string& parameter, double expanded, const std::string& unit) {
    return {{"series", series}, {"parameter", parameter}, {"expanded", expanded}, {"unit", unit}, {"coverage_factor", 2}};
}

std::vector<Json> stated_for_positioning(const std::string& series) {
    return {stated_uncertainty(series, "A", 1.5, "um"), stated_uncertainty(series, "E", 1.2, "um"),
            stated_uncertainty(series, "R", 0.9, "um"), stated_uncertainty(series, "B", 0.6, "um"),
            stated_uncertainty(series, "M", 1.1, "um")};
}

}  // namespace wayfolio::samples
