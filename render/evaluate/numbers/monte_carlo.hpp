#pragma once
#include <boost/random/mersenne_twister.hpp>
#include <boost/random/normal_distribution.hpp>
#include <boost/random/uniform_01.hpp>

#include <cstdint>
#include <functional>
#include <span>
#include <vector>

/// Propagation of distributions by JCGM 101:2008. The generator and its distributions are Boost.Random's, so a seed gives the
/// same numbers on every machine.
namespace wayfolio::evaluate {

/// Draws from the distributions that JCGM 101 names (clause 6.4).
class Draws {
public:
    explicit Draws(std::uint64_t seed) : engine_(seed) {}

    double normal(double mean, double standard) { return mean + standard * normal_(engine_); }
    double rectangular(double low, double high) { return low + (high - low) * uniform_(engine_); }
    double triangular(double low, double high);
    /// Arcsine.
    double u_shaped(double low, double high);
    /// location + scale x T; its standard deviation is scale x sqrt(nu / (nu - 2)).
    double student(double location, double scale, double degrees_of_freedom);
    /// A rectangle whose limits are themselves known to within ± d: variance (high - low)^2 / 12 + d^2 / 9.
    double curvilinear_trapezoid(double low, double high, double d);
    double chi_squared(std::size_t degrees_of_freedom);

private:
    boost::random::mt19937_64 engine_;
    boost::random::normal_distribution<double> normal_;
    boost::random::uniform_01<double> uniform_;
};

/// `trials` values of a model: a function that takes Draws& and returns a double.
template <class Model>
std::vector<double> simulate(std::size_t trials, std::uint64_t seed, Model&& model) {
    Draws draws(seed);
    std::vector<double> values(trials);
    for (double& value : values) value = model(draws);
    return values;
}

/// Trials of a model that gives several numbers, the same as often as they are gone through. The first are kept; the others are drawn
/// anew each time, so that memory does not grow with their number.
class RepeatedTrials {
public:
    using Row = std::span<const double>;
    /// Puts the numbers of one trial into the second argument.
    using Model = std::function<void(Draws&, std::span<double>)>;

    RepeatedTrials(std::size_t count, std::size_t numbers, std::uint64_t seed, std::size_t most_kept, Model model);
    /// Trials of one number that are all there.
    explicit RepeatedTrials(std::vector<double> values);

    [[nodiscard]] std::size_t count() const { return count_; }
    [[nodiscard]] std::size_t numbers() const { return numbers_; }
    /// One of the numbers, of the trials that are kept.
    [[nodiscard]] std::vector<double> kept(std::size_t number) const;
    void each(const std::function<void(Row)>& take) const;

private:
    std::size_t count_, numbers_;
    Model model_;
    std::vector<double> kept_;
    Draws after_;  ///< as they were when the last one that is kept was drawn
};

struct Interval {
    double low, high;
};

/// Mean, standard deviation and the probabilistically symmetric coverage interval of simulated values (JCGM 101 7.6, 7.7).
struct Simulated {
    double mean, standard;
    Interval symmetric;
    std::size_t inside = 0;  ///< how many lie within the band that was asked for, once their mean is moved to its middle
};

struct Band {
    double middle, half_width;
};

/// Of each of the numbers, in three passes: sum, what rounding left over of it, squares. The ends of an interval are counted off exactly:
/// kept trials tell between which values each lies, and what lies there is collected from all of them.
/// @param trials at least two @param bands one a number
std::vector<Simulated> summaries(const RepeatedTrials& trials, double coverage, const std::vector<Band>& bands);

/// @param values at least two
Simulated summary(std::vector<double> values, double coverage = 0.95);

/// The shortest coverage interval (JCGM 101 7.7.4).
Interval shortest_interval(std::vector<double> values, double coverage = 0.95);

/// Numerical tolerance of a standard uncertainty (JCGM 101 7.9.2): written c x 10^l with `digits` digits, it is 10^l / 2.
double numerical_tolerance(double standard, int digits);

/// Clause 8: first-order propagation is validated when both ends of its interval lie within the tolerance of the simulated ones.
struct Validation {
    double d_low, d_high, tolerance;
    bool validated;
};
Validation validate(double estimate, double expanded, double standard, const Interval& simulated, int digits);

}  // namespace wayfolio::evaluate
