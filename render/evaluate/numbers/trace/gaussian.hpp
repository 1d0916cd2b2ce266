#pragma once
#include "evaluate/numbers/trace/passes.hpp"

#include <functional>
#include <vector>

namespace wayfolio::evaluate {

/// The Gaussian low-pass of ISO 16610-21 [from memory] over the way of a record on the fly, along each pass by itself:
/// s(x) = exp(-pi (x / (alpha c))^2) / (alpha c), alpha = sqrt(ln 2 / pi), c the cut-off; half of a wave as long as the cut-off goes
/// through. Samples that are not even weigh by their way: the record is the line through them, of which means over 1/64 of the cut-off are
/// taken, and of those the weighted mean, over one cut-off length on either side, outside which 1e-7 of the weight lies. What the means
/// take off is allowed for in the weights. Filtered values stand in the middle of each 64th, counted from position 0, so that all passes
/// have them at the same places. Where the window is not within the pass there are none: the first and the last cut-off length of a pass
/// are left out. Only the window is held.
class GaussianLowPass {
public:
    static constexpr int parts = 64;  ///< of the cut-off; by choice

    /// @param cutoff in the unit of positions
    explicit GaussianLowPass(double cutoff);

    struct Value {
        document::Approach approach;
        bool begins_pass;
        double x, y;
    };
    void add(const Stretch& stretch, const std::function<void(const Value&)>& take);
    /// The longest way between two samples. Beyond the cut-off nothing is filtered any more.
    [[nodiscard]] double longest_stretch() const { return longest_; }

private:
    void begin_pass(const Stretch& stretch);
    void end_part(double mean, const std::function<void(const Value&)>& take);

    double cutoff_;
    std::vector<double> weights_;  ///< of 2 parts + 1 means, that in the middle first
    double longest_ = 0;
    document::Approach approach_ = document::Approach::Positive;
    long long part_ = 0;       ///< the one that is gone through, counted along the pass
    bool from_border_ = false;
    double sum_ = 0;           ///< of what was gone through of it
    std::vector<double> means_;  ///< a ring: that of part n lies at n modulo its size
    std::size_t held_ = 0;
    bool begins_pass_ = true;
};

}  // namespace wayfolio::evaluate
