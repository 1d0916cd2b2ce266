#pragma once
#include "support/samples/measured_series.hpp"
#include "support/samples/sample_set.hpp"

/// The machining centre D-0007, whose X axis the short axis shows at the latest of six yearly visits.
namespace wayfolio::samples {

Site site_of_seven();
Json machine_seven();

/// Its X axis at the latest visit.
LinearAxis latest_of_seven();
/// The 13 targets of each visit; `noise` goes on to the readings.
std::vector<double> targets_of_seven(Noise& noise);
/// Positioning with the limits of the purchase specification.
Json positioning_of_seven(const LinearAxis& axis, const std::string& state, const RunPlan& plan, Noise& noise);
/// The expanded uncertainties that the laboratory states for the positioning of that series.
std::vector<Json> stated_for_positioning(const std::string& series);
Json stated_uncertainty(const std::string& series, const std::string& parameter, double expanded, const std::string& unit);

}  // namespace wayfolio::samples
