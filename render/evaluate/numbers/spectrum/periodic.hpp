#pragma once
#include <optional>
#include <span>

namespace wayfolio::evaluate {

/// A sine fitted to values at uneven places together with a straight line, or a polynomial of some degree (the spectrum of Lomb,
/// Astrophysics and Space Science 39 (1976) 447, and Scargle, Astrophysical Journal 263 (1982) 835, with the polynomial fitted at the same
/// time: positioning data are steep, and ways are bent).
struct PeriodicFit {
    double frequency;  ///< in 1 / unit of x
    double z;          ///< share of the scatter about the polynomial that the sine explains, 0..1
    double amplitude;
    double phase;     ///< of the cosine: amplitude cos(2 pi f x + phase)
    double slope;     ///< of the line fitted with it
    double p_single;  ///< (1 - z)^((N - degree - 3) / 2): exact for normal noise and this one frequency
};

/// @return nothing for fewer values than five more than the degree, values without scatter about the polynomial, or a frequency at which
/// cosine or sine is nearly a polynomial over these places (|correlation| above 0.7), as at the pitch of the targets: such a fit has a
/// false amplitude
std::optional<PeriodicFit> fit_periodic(std::span<const double> x, std::span<const double> y, double frequency, int degree = 1);

/// The best frequency of a band, with the probability that noise alone reaches it anywhere in the band:
/// Baluev, Monthly Notices of the Royal Astronomical Society 385 (2008) 1279, an upper bound.
struct PeriodicPeak {
    PeriodicFit fit;
    double p_band;
    double highest;  ///< frequency that was searched
};

/// Searches on a grid of a twentieth of 1 / length. Fast sums tell which frequencies may have the largest share, and those few are
/// fitted: the time grows with the values and the frequencies, not with their product.
std::optional<PeriodicPeak> periodic_peak(std::span<const double> x, std::span<const double> y, double lowest, double highest,
                                          int degree = 1);

/// Baluev's bound for the share z in a band up to `highest`, polynomial fitted.
double baluev_bound(std::span<const double> x, double z, double highest, int degree = 1);

}  // namespace wayfolio::evaluate
