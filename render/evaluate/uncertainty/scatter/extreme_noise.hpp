#pragma once
#include "evaluate/cumulants.hpp"

#include <array>
#include <compare>
#include <map>
#include <span>
#include <utility>
#include <vector>

/// What noise adds to the largest of several values, in plain numbers of one unit.
namespace wayfolio::evaluate {

/// One value that may be the largest, with the law of its noise.
struct Candidate {
    double level;     ///< as measured; larger is more extreme
    Cumulants noise;
};

/// The candidate with the highest level; of equal ones that with the widest noise, so that order does not matter.
/// @param candidates at least one
const Candidate& highest(std::span<const Candidate> candidates);

/// A candidate's noise about its shortened distance below the highest.
struct NearLaw {
    double mean, standard, skewness;
    // Beyond these the law has less than a millionth.
    [[nodiscard]] double least() const { return mean - 5 * standard; }
    [[nodiscard]] double most() const { return mean + (5 + 3 * skewness) * standard; }
    auto operator<=>(const NearLaw&) const = default;
};

/// Law of max(e_i - gap_i), where gap_i is how far a candidate lies below the highest and e_i its independent noise: what noise adds to
/// the level of the largest. A gap up to `closing` standard uncertainties of its own counts as none, a larger one g as
/// g - (closing u)^2 / g: measured levels are spread by noise already (non-negative garrote: Breiman, Technometrics 37 (1995) 373 [from
/// memory]; to keep only what may be largest: Andrews and Soares, Econometrica 78 (2010) 119 [from memory]).
/// The noise of each is a gamma law by Wilson and Hilferty, PNAS 17 (1931) 684 [from memory]; the moments are exact in it, by
/// Gauss-Legendre.
///
/// One for all values of a series: on a flat axis both directions of a target have the same law, and so have most targets in A and in A of
/// one direction, so that more than half of all probabilities were had before.
class MaximumNoise {
public:
    /// @param candidates at least one
    Cumulants of(std::span<const Candidate> candidates, double closing);

private:
    static constexpr std::size_t points = 30;
    using Known = std::array<double, points>;  ///< the probability to lie below each point of the integral; NaN: nobody asked yet
    /// Of each law, in the integral between these ends. They stay where they are until the next time.
    std::vector<Known*> known_of(const std::vector<NearLaw>& all, double low, double high);

    /// By the ends of the integral.
    std::map<std::pair<double, double>, std::map<NearLaw, Known>> known_;
    std::size_t laws_ = 0;  ///< in all of them
};

/// What a quantity with this law, and an independent `systematic` standard uncertainty beside it, stays below at the standard normal
/// quantile z: Cornish and Fisher (1937) [from memory]. The law scales with a standard deviation of so many degrees of freedom,
/// u(s)/s = 1/sqrt(2 nu) (GUM E.4.3; derived).
double upper_end(const Cumulants& law, double systematic, double degrees_of_freedom, double z);

/// The law of s / sigma - 1 for a standard deviation s of a normal sample.
/// [chi distribution: E s = c4 sigma, E s^2 = sigma^2, E s^3 = c4 sigma^3 (nu + 1) / nu; derived]
Cumulants relative_error_of_s(double degrees_of_freedom);

}  // namespace wayfolio::evaluate
