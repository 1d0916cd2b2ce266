#pragma once
#include <span>
#include <vector>

namespace wayfolio::evaluate {

/// Frequencies in equal steps: first, first + step and so on.
struct FrequencyGrid {
    double first, step;
    std::size_t count;
    [[nodiscard]] double at(std::size_t place) const { return first + step * static_cast<double>(place); }
    bool operator==(const FrequencyGrid&) const = default;
};

/// A weight for every place, and the frequencies of its sums.
struct Weighting {
    std::span<const double> weights;
    FrequencyGrid grid;
};

/// Sums of weights times cosines and sines, one of each for every frequency of a grid.
struct FourierSums {
    std::vector<double> cosine, sine;
};

/// Sum of w cos(2 pi f x) and of w sin(2 pi f x) over uneven places x, to about 1e-10 of the sum of |w|, in a time that grows with places
/// and frequencies and not with their product: weights are spread over an even grid by a Gaussian, which is divided out of the grid's
/// fast Fourier transform (Greengard and Lee, SIAM Review 46 (2004) 443, type 1 [from memory; held against plain sums by the tests]).
/// @param all their grids have the same count; what is done for one grid is done once where those with the same grid stand together
/// @return the sums of each, in the same order: each the same, to the last bit, as if it were alone
std::vector<FourierSums> fourier_sums(std::span<const double> x, std::span<const Weighting> all);

}  // namespace wayfolio::evaluate
