#pragma once
#include "document/influence.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Combination of standard uncertainties by the GUM (JCGM 100:2008 clause 5, annex G), in plain numbers of one unit.
namespace wayfolio::evaluate {

/// How the parts of a component act together.
enum class Law {
    Quadrature,  ///< independent: root of the sum of squares
    Sum          ///< fully correlated (r = +1): added before squaring
};

/// One entry of a budget: a single contributor, or several combined by a law into one component with its own degrees of freedom.
struct Component {
    std::string name{}, basis{}, distribution{};
    double standard = 0;                         ///< standard uncertainty of the input
    double sensitivity = 1;                      ///< contribution = sensitivity x standard
    std::optional<double> degrees_of_freedom{};  ///< empty: infinite
    Law law = Law::Quadrature;
    bool per_metre = false;          ///< `standard` is for one metre: the length is in `sensitivity`
    std::optional<document::Influence> influence{};  ///< what of the program's own it is or takes the place of
    std::vector<Component> parts{};  ///< not empty: a combined component; standard and degrees of freedom come from the parts
};

/// The combined standard uncertainty with its effective degrees of freedom.
struct Combined {
    double standard = 0;
    std::optional<double> degrees_of_freedom{};  ///< empty: infinite
};

/// Quadrature: u^2 = sum of squares; degrees of freedom by Welch-Satterthwaite, u^4 / sum(u_i^4 / nu_i) (GUM G.2b), not
/// truncated. Sum: u = |sum of contributions|; degrees of freedom u^2 / sum(u_i^2 / nu_i), from var(u_i) = u_i^2 / (2 nu_i) of
/// each [derived; GUM E.4.3].
Combined combine(const Component& component);

/// A contributor of a budget with its share of the variance (all shares add up to 1; of a sum, in proportion to the
/// contributions).
struct Share {
    const Component* contributor;
    double contribution;  ///< sensitivity x standard, with the sensitivities of the components it is part of
    double share;
    std::string_view correlated;  ///< name of the sum it was added in before squaring; empty where it stands alone or the sum has no name
};
/// Every single contributor, in order. The pointers are into `component`.
std::vector<Share> shares(const Component& component);

/// Degrees of freedom truncated downwards (GUM G.4.1 note 1), at least 1.
double truncated(double degrees_of_freedom);

/// Two-sided coverage factor of Student's t for a coverage probability; of the normal distribution for infinite degrees of
/// freedom.
double coverage_factor(const std::optional<double>& degrees_of_freedom, double coverage);

/// What a coverage factor covers: the probability within plus and minus so many standard uncertainties.
double coverage_reached(const std::optional<double>& degrees_of_freedom, double factor);

/// Standard uncertainty of a standard deviation from n readings: s / sqrt(2 (n - 1)) (GUM E.4.3, approximate).
double uncertainty_of_standard_deviation(double s, std::size_t n);

}  // namespace wayfolio::evaluate
