#pragma once
#include "evaluate/uncertainty/contributors.hpp"

/// The combination table: which contributors act on which parameter, and how often. [derived, GUM; not the text of ISO 230-2 Annex A]
/// Whoever knows better equations changes them here.
namespace wayfolio::evaluate {

// clang-format off
/// The budget of one evaluated parameter, in µm or µrad (slope: µrad); nothing for a parameter that the table does not know.
/// With L in m; a, c of the instrument, p (per metre) and g (constant) of every further contributor, d of one reading by drift; s and
/// n at the targets that set the parameter; u(s) = s / sqrt(2 (n - 1)); sys^2 = (a L + c)^2 + SUM (p L)^2 + SUM g^2, where p and g that
/// are correlated are added before squaring:
///
///   M, straightness_mean           sys^2 + SUM over its 2 targets [ (s_up^2 + d^2)/n_up + (s_down^2 + d^2)/n_down ] / 4
///   E, straightness, angle         sys^2 + SUM over its 2 ends (s^2 + d^2)/n             (also one way)
///   A                              as E + SUM over its 2 ends 4 u(s)^2                               (also one way)
///   R one way                      16 u(s)^2
///   R both ways                    SUM over both directions [ 4 u(s)^2 + (s^2 + d^2)/n ]
///   B                              SUM over both directions (s^2 + d^2)/n
///   B_mean                         SUM over all targets and directions (s^2 + d^2)/n, divided by m^2
///   slope                          residual variance / SUM (x - mean x)^2 + sys^2 / L^2
///
/// The uncertainty of the reference line itself is left out.
/// @param length_m whole travel, or the distance of the setting targets
// clang-format on
std::optional<Component> budget_of(const SeriesEvaluation& series, const Parameter& parameter,
                                   const SeriesContributors& contributors, double length_m);

/// Budget of local straightness over windows of `length_m`: sys^2 and, at both ends, (s_p^2 + d^2) / (n_up + n_down)
/// with the pooled s and the smallest numbers of readings: the window is where the largest value stands, its ends are not
/// followed.
Component local_budget(const SeriesEvaluation& series, const SeriesContributors& contributors, double length_m);

/// The parameter as set by each choice among its tied places that may give the largest uncertainty, whatever their order: by more
/// scatter or by a longer distance. The first is the parameter itself.
std::vector<Parameter> settings_of(const SeriesEvaluation& series, const Parameter& parameter, const SeriesContributors& contributors);

/// The name without the direction at its end.
std::string_view stem(std::string_view parameter);

/// Whether the table's line for this parameter has L in it.
bool depends_on_length(std::string_view parameter);

/// Distance of the two targets that set a range, in m; nothing for a rotary axis or another number of targets.
std::optional<double> setting_distance_m(const Parameter& parameter);

/// The longest distance between places that set a range, tied ones among them; nothing as setting_distance_m().
std::optional<double> longest_setting_distance_m(const Parameter& parameter);

/// Measured travel of a series in m; 0 for a rotary axis, whose contributors have no length-proportional part.
double measured_travel_m(const SeriesEvaluation& series);

/// Plain sentences on what the scatter of this parameter's budget lacks.
std::vector<std::string> scatter_notes(const SeriesEvaluation& series, const Parameter& parameter);

}  // namespace wayfolio::evaluate
