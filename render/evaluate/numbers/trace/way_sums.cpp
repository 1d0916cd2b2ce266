#include "evaluate/numbers/trace/way_sums.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace wayfolio::evaluate {
namespace {

using BasisMatrix = std::array<std::array<double, 4>, 4>;
using BasisVector = std::array<double, 4>;

/// The first `size` rows of a x = b, a symmetric and positive, by Cholesky; nothing where a column is nearly made of those before it.
std::optional<BasisVector> solved(BasisMatrix a, BasisVector b, std::size_t size) {
    constexpr double least_share = 1e-6;  // of a column that those before it leave
    for (std::size_t j = 0; j < size; ++j) {
        double left = a[j][j];
        for (std::size_t k = 0; k < j; ++k) left -= a[j][k] * a[j][k];
        if (!(left > least_share * a[j][j])) return std::nullopt;
        a[j][j] = std::sqrt(left);
        for (std::size_t i = j + 1; i < size; ++i) {
            for (std::size_t k = 0; k < j; ++k) a[i][j] -= a[i][k] * a[j][k];
            a[i][j] /= a[j][j];
        }
    }
    for (std::size_t i = 0; i < size; ++i) {
        for (std::size_t k = 0; k < i; ++k) b[i] -= a[i][k] * b[k];
        b[i] /= a[i][i];
    }
    for (std::size_t i = size; i-- > 0;) {
        for (std::size_t k = i + 1; k < size; ++k) b[i] -= a[k][i] * b[k];
        b[i] /= a[i][i];
    }
    return b;
}

}  // namespace

std::optional<Line> WayLine::line() const {
    const double way = way_.value();
    if (!(way > 0)) return std::nullopt;
    const double x = x_.value() / way, y = y_.value() / way;
    const double spread = xx_.value() / way - x * x;
    if (!(spread > 0)) return std::nullopt;
    return Line{(xy_.value() / way - x * y) / spread, *x0_ + x, *y0_ + y};
}

void WayPeriod::add(const Stretch& stretch) {
    if (!x0_) {
        x0_ = stretch.from_x, y0_ = stretch.from_y;
        low_ = high_ = stretch.from_x;
    }
    low_ = std::min({low_, stretch.from_x, stretch.to_x});
    high_ = std::max({high_, stretch.from_x, stretch.to_x});
    longest_ = std::max(longest_, stretch.way());
    add(stretch.from_x, stretch.from_y, stretch.way() / 2);
    add(stretch.to_x, stretch.to_y, stretch.way() / 2);
}

void WayPeriod::add(double x, double y, double weight) {
    const double along = (x - *x0_) / period_, rise = y - *y0_, angle = 2 * std::numbers::pi * along;
    const BasisVector basis{1, along, std::cos(angle), std::sin(angle)};
    for (std::size_t i = 0; i < basis.size(); ++i) {
        for (std::size_t j = 0; j <= i; ++j) products_[i][j].add(weight * basis[i] * basis[j]);
        with_y_[i].add(weight * basis[i] * rise);
    }
    yy_.add(weight * rise * rise);
}

std::optional<WayPeriod::Fit> WayPeriod::fit() const {
    constexpr double fewest_periods = 3;
    if (!(span() >= fewest_periods * period_)) return std::nullopt;
    BasisMatrix products{};
    BasisVector with_y{};
    for (std::size_t i = 0; i < with_y.size(); ++i) {
        for (std::size_t j = 0; j <= i; ++j) products[i][j] = products_[i][j].value();
        with_y[i] = with_y_[i].value();
    }
    const auto line = solved(products, with_y, 2), all = solved(products, with_y, 4);
    if (!line || !all) return std::nullopt;
    const double left_by_line = yy_.value() - (*line)[0] * with_y[0] - (*line)[1] * with_y[1];
    double left_by_all = yy_.value();
    for (std::size_t i = 0; i < with_y.size(); ++i) left_by_all -= (*all)[i] * with_y[i];
    // What rounding leaves of a perfect line is no scatter.
    constexpr double least_scatter = 1e-13;
    const bool scatters = left_by_line > least_scatter * yy_.value();
    return Fit{std::hypot((*all)[2], (*all)[3]), scatters ? std::clamp(1 - left_by_all / left_by_line, 0.0, 1.0) : 0};
}

}  // namespace wayfolio::evaluate
