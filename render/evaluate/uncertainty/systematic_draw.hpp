#pragma once
#include "evaluate/numbers/budget.hpp"
#include "evaluate/numbers/monte_carlo.hpp"

#include <vector>

/// The systematic parts of a budget as distributions (JCGM 101:2008 6.4), drawn together.
namespace wayfolio::evaluate {

/// An input with the law that its contributor declares: normal, the scaled t of its degrees of freedom (6.4.9.7 [clause from memory]),
/// rectangular, triangular or arcsine. Limits are taken as exact, whatever degrees of freedom they were given.
struct SystematicInput {
    enum class Shape { Normal, Student, Rectangular, Triangular, Arcsine } shape = Shape::Normal;
    double standard = 0;            ///< contribution: sensitivity x standard uncertainty
    double degrees_of_freedom = 0;  ///< for Student
};

/// One draw of what the parts of a budget add up to. Made of the components that the first order combines, so that both say the same of
/// lengths and correlation: independent parts are drawn alone; of those that a sum adds, each is at the same probability of its own law
/// (r = +1: comonotone [derived]). The parts of a sum are single inputs.
class SystematicDraw {
public:
    explicit SystematicDraw(const std::vector<Component>& parts);

    double operator()(Draws& draws) const;

    /// Whether an input has no finite standard deviation: the scaled t of two degrees of freedom or fewer.
    [[nodiscard]] bool endless() const;

private:
    using Group = std::vector<SystematicInput>;
    void add(const Component& component, double factor);
    void add_sum(const Component& sum, double factor);
    void add_group(Group group);
    std::vector<Group> groups_;
};

/// Value of a law of standard uncertainty 1 at a probability inside (0, 1); of Student's t of scale 1.
double standardised_quantile(const SystematicInput& input, double probability);

}  // namespace wayfolio::evaluate
