#include "evaluate/numbers/trace/gaussian.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace wayfolio::evaluate {

using document::Approach;

namespace {

constexpr int window = 2 * GaussianLowPass::parts + 1;

double sign_of(Approach approach) { return approach == Approach::Positive ? 1 : -1; }

std::size_t place_of(long long part) { return static_cast<std::size_t>(((part % window) + window) % window); }

}  // namespace

/// The variance of the weights and that of a mean over one part, 1/12, add up to the Gaussian's, alpha^2 c^2 / (2 pi).
GaussianLowPass::GaussianLowPass(double cutoff) : cutoff_(cutoff), means_(window) {
    const double alpha_squared = std::numbers::ln2 / std::numbers::pi;
    const double variance = alpha_squared * parts * parts / (2 * std::numbers::pi) - 1.0 / 12;
    double sum = 0;
    for (int i = 0; i <= parts; ++i) {
        weights_.push_back(std::exp(-i * i / (2 * variance)));
        sum += (i == 0 ? 1 : 2) * weights_.back();
    }
    for (double& weight : weights_) weight /= sum;
}

void GaussianLowPass::begin_pass(const Stretch& stretch) {
    approach_ = stretch.approach;
    const double along = sign_of(approach_) * stretch.from_x / cutoff_ * parts;
    part_ = static_cast<long long>(std::floor(along));
    from_border_ = along == std::floor(along);
    sum_ = 0;
    held_ = 0;
    begins_pass_ = true;
}

void GaussianLowPass::add(const Stretch& stretch, const std::function<void(const Value&)>& take) {
    longest_ = std::max(longest_, stretch.way());
    if (longest_ > cutoff_) return;
    if (stretch.begins_pass) begin_pass(stretch);
    const double scale = sign_of(approach_) / cutoff_ * parts, to = stretch.to_x * scale;
    double at = stretch.from_x * scale, y = stretch.from_y;
    while (static_cast<double>(part_ + 1) <= to) {
        const auto border = static_cast<double>(part_ + 1);
        const double at_border = stretch.value_at(border / scale);
        sum_ += (border - at) * (y + at_border) / 2;
        if (from_border_) end_part(sum_, take);
        from_border_ = true;
        sum_ = 0;
        ++part_;
        at = border;
        y = at_border;
    }
    sum_ += (to - at) * (y + stretch.to_y) / 2;
}

void GaussianLowPass::end_part(double mean, const std::function<void(const Value&)>& take) {
    means_[place_of(part_)] = mean;
    if (++held_ < means_.size()) return;
    const long long middle = part_ - parts;
    double sum = weights_[0] * means_[place_of(middle)];
    for (int i = 1; i <= parts; ++i)
        sum += weights_[static_cast<std::size_t>(i)] * (means_[place_of(middle - i)] + means_[place_of(middle + i)]);
    take({approach_, begins_pass_, sign_of(approach_) * (static_cast<double>(middle) + 0.5) * cutoff_ / parts, sum});
    begins_pass_ = false;
}

}  // namespace wayfolio::evaluate
