#include "evaluate/numbers/f_test.hpp"

#include <boost/math/distributions/fisher_f.hpp>

namespace wayfolio::evaluate {

double FTest::p(double F) const {
    if (!(F < 1e300)) return 0;
    return boost::math::cdf(boost::math::complement(boost::math::fisher_f(numerator_, denominator_), F));
}

bool FTest::stands_out(double F) {
    if (F <= most_common_) return false;
    if (F >= least_rare_) return true;
    const double found = p(F);
    // So close to the level the rounding of p might count, and nothing is said of other ratios.
    constexpr double clear = 1e-9;
    if (found > level_ * (1 + clear)) most_common_ = F;
    if (found < level_ * (1 - clear)) least_rare_ = F;
    return found < level_;
}

}  // namespace wayfolio::evaluate
