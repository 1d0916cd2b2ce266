#pragma once
#include <cmath>

namespace wayfolio::evaluate {

/// Whether a ratio F of two variances, of so many degrees of freedom, is so large that chance gives one as large less often than `level`.
/// One for many ratios: the probability falls as F rises, so that what was found for one tells most of the others. Asking the distribution
/// takes as long as ten thousand multiplications.
class FTest {
public:
    FTest(double numerator, double denominator, double level) : numerator_(numerator), denominator_(denominator), level_(level) {}

    /// Probability of a ratio at least as large; 0 for one that is not finite.
    [[nodiscard]] double p(double F) const;
    /// p(F) < level, and never anything else than that.
    [[nodiscard]] bool stands_out(double F);

private:
    double numerator_, denominator_, level_;
    double most_common_ = -INFINITY, least_rare_ = INFINITY;  ///< the largest F known to be no rarer than `level`, the smallest known to be
};

}  // namespace wayfolio::evaluate
