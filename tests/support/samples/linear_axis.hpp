#pragma once
#include "support/samples/json_text.hpp"
#include "support/samples/noise.hpp"

#include <string>
#include <vector>

namespace wayfolio::samples {

/// An invented linear axis X of a machine whose Z is vertical: what is wrong with it, in µm, µm/m, µrad and mm.
/// Angles are not invented apart from the straightness: they are the tangent of the path (right-hand rule, ISO 841):
/// dEZX/dx = -EBX and dEYX/dx = +ECX.
struct LinearAxis {
    double from = 0, to = 1000;  ///< mm
    double lead_um_per_m = 0;    ///< scale error, straight part
    double lead_bow_um = 0;      ///< scale error, largest in the middle of the travel
    double periodic_um = 0, period_mm = 100;
    double reversal_start_um = 0, reversal_end_um = 0;  ///< positive less negative approach; grows along the axis
    double growth_um_per_m = 0;                         ///< thermal growth from the first run to the last, slowing down
    double length_noise_um = 0;
    double dip_um = 0, dip_at = 0, dip_half_width = 1;  ///< the bed is low there
    double side_bow_um = 0, side_wave_um = 0;           ///< guide in the horizontal plane
    double twist_urad = 0;                              ///< roll from one end to the other
    double beam_y_um_per_m = 0, beam_z_um_per_m = 0;    ///< straightness reference not parallel to the axis
    double side_noise_um = 0, side_reversal_um = 0;
    double angle_noise_urad = 0, angle_reversal_urad = 0;
};

/// One reading about to be taken: where, from which side, and how much of the measuring time has passed (0..1).
struct Visit {
    double x;
    bool positive;
    double elapsed;
};

/// The deviation (µm or µrad) of the error `symbol` (EXX EYX EZX EAX EBX ECX) without noise.
double true_deviation(const LinearAxis& axis, const std::string& symbol, const Visit& visit);

/// The standard deviation of one reading of that error.
double reading_noise(const LinearAxis& axis, const std::string& symbol);

/// `count` targets from one end of the axis to the other: the ends themselves, and between them an even pitch with a random
/// part of up to ±30 % of it, in whole tenths of a millimetre (ISO 230-2 asks for such targets; from memory).
std::vector<double> random_targets(const LinearAxis& axis, std::size_t count, Noise& noise);

}  // namespace wayfolio::samples
