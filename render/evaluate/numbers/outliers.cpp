#include "evaluate/numbers/outliers.hpp"

#include "evaluate/numbers/statistics.hpp"

#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {
namespace {

double p_of(double T, double readings, double nu) {
    if (T * T >= nu) return 0;  // the largest T that can be: all scatter in one reading
    const double t = std::abs(T) * std::sqrt((nu - 1) / (nu - T * T));
    return std::min(1.0, 2 * readings * boost::math::cdf(boost::math::complement(boost::math::students_t(nu - 1), t)));
}

}  // namespace

std::optional<FarthestReading> farthest_reading(const std::vector<Group>& groups, double spent) {
    double squares = 0, nu = -spent, readings = 0;
    for (const Group& group : groups) {
        if (group.size() < 2) continue;
        const double centre = mean(group);
        for (const double value : group) squares += (value - centre) * (value - centre);
        nu += static_cast<double>(group.size() - 1);
        readings += static_cast<double>(group.size());
    }
    if (nu < 2 || !(squares > 0)) return std::nullopt;
    FarthestReading farthest{0, 0, 0, std::sqrt(squares / nu), nu, readings, 1};
    for (std::size_t g = 0; g < groups.size(); ++g) {
        if (groups[g].size() < 2) continue;
        const double centre = mean(groups[g]),
                     scale = farthest.s_pooled * std::sqrt(1 - 1.0 / static_cast<double>(groups[g].size()));
        for (std::size_t i = 0; i < groups[g].size(); ++i) {
            const double T = (groups[g][i] - centre) / scale;
            if (std::abs(T) > std::abs(farthest.T)) {
                farthest.group = g;
                farthest.place = i;
                farthest.T = T;
            }
        }
    }
    farthest.p = p_of(farthest.T, readings, nu);
    return farthest;
}

double critical_T(double readings, double nu, double alpha) {
    const double t = boost::math::quantile(boost::math::complement(boost::math::students_t(nu - 1), alpha / (2 * readings)));
    return t * std::sqrt(nu / (nu - 1 + t * t));
}

}  // namespace wayfolio::evaluate
