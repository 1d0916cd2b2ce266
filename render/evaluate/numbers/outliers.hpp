#pragma once
#include <optional>
#include <vector>

namespace wayfolio::evaluate {

/// One group of readings that share a mean (one target, one direction).
using Group = std::vector<double>;

/// The reading farthest from its group's mean, measured by one standard deviation pooled over all groups:
/// T = (x - mean) / (s_p sqrt(1 - 1/n)). T sqrt((nu - 1) / (nu - T^2)) follows Student's t with nu - 1 degrees of freedom
/// [derived]; p is that of the largest of N readings (Bonferroni). With a single group this is the test of Grubbs.
struct FarthestReading {
    std::size_t group, place;  ///< place within the group
    double T;                  ///< signed
    double s_pooled;
    double nu;        ///< sum of (n - 1)
    double readings;  ///< N
    double p;
};

/// @param spent degrees of freedom that were taken out of the readings beside the means of their groups
/// @return nothing when nu < 2 or the readings have no scatter
std::optional<FarthestReading> farthest_reading(const std::vector<Group>& groups, double spent = 0);

/// The |T| that the largest of N readings exceeds with probability alpha (at most).
double critical_T(double readings, double nu, double alpha);

}  // namespace wayfolio::evaluate
