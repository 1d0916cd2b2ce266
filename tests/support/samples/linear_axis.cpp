#include "support/samples/linear_axis.hpp"

#include <stdexcept>

namespace wayfolio::samples {
namespace {

constexpr double pi = 3.14159265358979323846;

double fraction(const LinearAxis& a, double x) { return (x - a.from) / (a.to - a.from); }

double positioning(const LinearAxis& a, const Visit& v) {
    const double u = fraction(a, v.x), metres = (v.x - a.from) / 1000;
    const double grown = 1 - std::exp(-2.5 * v.elapsed);  // a machine warms fast at first
    const double reversal = a.reversal_start_um + (a.reversal_end_um - a.reversal_start_um) * u;
    return a.lead_um_per_m * metres + a.lead_bow_um * std::sin(pi * u) + a.periodic_um * std::sin(2 * pi * v.x / a.period_mm) +
           a.growth_um_per_m * grown * metres + (v.positive ? 0.5 : -0.5) * reversal;
}

double dip(const LinearAxis& a, double x) {
    const double w = (x - a.dip_at) / a.dip_half_width;
    return -a.dip_um * std::exp(-w * w);
}

/// EBX = -dEZX/dx; µm per mm are mrad.
double pitch_urad(const LinearAxis& a, double x) {
    return 1000 * 2 * (x - a.dip_at) / (a.dip_half_width * a.dip_half_width) * dip(a, x);
}

double side(const LinearAxis& a, double x) {
    const double u = fraction(a, x);
    return a.side_bow_um * std::sin(pi * u) + a.side_wave_um * std::sin(3 * pi * u);
}

/// ECX = +dEYX/dx.
double yaw_urad(const LinearAxis& a, double x) {
    const double u = fraction(a, x), per_mm = pi / (a.to - a.from);
    return 1000 * per_mm * (a.side_bow_um * std::cos(pi * u) + 3 * a.side_wave_um * std::cos(3 * pi * u));
}

double roll_urad(const LinearAxis& a, double x) {
    const double u = fraction(a, x);
    return a.twist_urad * (u + 0.18 * std::sin(2 * pi * u));
}

}  // namespace

double true_deviation(const LinearAxis& a, const std::string& symbol, const Visit& v) {
    const double half = v.positive ? 0.5 : -0.5;
    const double metres = (v.x - a.from) / 1000;
    // An angle has no zero of its own: instruments are set to zero at the first target.
    if (symbol == "EXX") return positioning(a, v);
    if (symbol == "EYX") return side(a, v.x) + a.beam_y_um_per_m * metres + half * a.side_reversal_um;
    if (symbol == "EZX") return dip(a, v.x) - dip(a, a.from) + a.beam_z_um_per_m * metres + half * a.side_reversal_um;
    if (symbol == "EAX") return roll_urad(a, v.x) + half * a.angle_reversal_urad;
    if (symbol == "EBX") return pitch_urad(a, v.x) - pitch_urad(a, a.from) + half * a.angle_reversal_urad;
    if (symbol == "ECX") return yaw_urad(a, v.x) - yaw_urad(a, a.from) + half * a.angle_reversal_urad;
    throw std::invalid_argument("no such error of an X axis: " + symbol);
}

double reading_noise(const LinearAxis& a, const std::string& symbol) {
    if (symbol == "EXX") return a.length_noise_um;
    return symbol == "EYX" || symbol == "EZX" ? a.side_noise_um : a.angle_noise_urad;
}

std::vector<double> random_targets(const LinearAxis& a, std::size_t count, Noise& noise) {
    std::vector<double> targets{a.from};
    const double pitch = (a.to - a.from) / static_cast<double>(count - 1);
    for (std::size_t i = 1; i + 1 < count; ++i)
        targets.push_back(shown(a.from + pitch * (static_cast<double>(i) + 0.6 * noise.uniform() - 0.3), 10));
    targets.push_back(a.to);
    return targets;
}

}  // namespace wayfolio::samples
