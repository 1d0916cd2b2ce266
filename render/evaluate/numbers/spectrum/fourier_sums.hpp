#pragma once
#include <span>
#include <vector>

namespace wayfolio::evaluate {

/// Frequencies in equal steps: first, first + step and so on.
struct FrequencyGrid {
    double first, step;
    std::size_t count;
    [[nodiscard]] double at(std::size_t place) const { return first + step * static_cast<double>(place); }
};

/// Sums of weights times cosines and sines, one of each for every frequency of a grid.
struct FourierSums {
    std::vector<double> cosine, sine;
};

/// Sum of w cos(2 pi f x) and of w sin(2 pi f x) over uneven places x, to about 1e-10 of the sum of |w|, in a time that grows with places
/// and frequencies and not with their product: weights are spread over an even grid by a Gaussian, which is divided out of the grid's
/// fast Fourier transform (Greengard and Lee, SIAM Review 46 (2004) 443, type 1 [from memory; held against plain sums by the tests]).
FourierSums fourier_sums(std::span<const double> x, std::span<const double> weights, const FrequencyGrid& grid);

}  // namespace wayfolio::evaluate
