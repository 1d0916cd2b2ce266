#include "evaluate/numbers/spectrum/fourier_sums.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numbers>
#include <utility>

namespace wayfolio::evaluate {
namespace {

constexpr double whole_circle = 2 * std::numbers::pi;
/// Cells to each side that a weight is spread over. With a grid twice as fine as the frequencies ask for, 12 leave about 1e-12.
constexpr int spread = 12;

/// Complex numbers on an even grid over the circle; as many as a power of two.
struct EvenGrid {
    std::vector<double> re, im;
};

void put_in_bit_reversed_order(EvenGrid& grid) {
    const std::size_t n = grid.re.size();
    for (std::size_t i = 1, j = 0; i < n; ++i) {
        std::size_t bit = n / 2;
        for (; (j & bit) != 0; bit /= 2) j ^= bit;
        j ^= bit;
        if (i >= j) continue;
        std::swap(grid.re[i], grid.re[j]);
        std::swap(grid.im[i], grid.im[j]);
    }
}

/// Fast Fourier transform in place, radix 2, with exp(+i): what stands at m becomes the sum over l of g(l) exp(2 pi i l m / n).
/// Our own, for only these lines of the sums over uneven places are a plain transform: FFTW chooses its way by the processor, so that last
/// digits would depend on the machine, and its planner is global; a library of a few lines' use is one more for whoever installs.
void transform(EvenGrid& grid) {
    put_in_bit_reversed_order(grid);
    const std::size_t n = grid.re.size();
    std::vector<double> cosine(n / 2), sine(n / 2);
    for (std::size_t i = 0; i < n / 2; ++i) {
        const double angle = whole_circle * static_cast<double>(i) / static_cast<double>(n);
        cosine[i] = std::cos(angle);
        sine[i] = std::sin(angle);
    }
    for (std::size_t half = 1; half < n; half *= 2) {
        const std::size_t stride = n / (2 * half);
        for (std::size_t begin = 0; begin < n; begin += 2 * half) {
            for (std::size_t i = 0; i < half; ++i) {
                const std::size_t low = begin + i, high = low + half;
                const double c = cosine[i * stride], s = sine[i * stride];
                const double re = grid.re[high] * c - grid.im[high] * s, im = grid.re[high] * s + grid.im[high] * c;
                grid.re[high] = grid.re[low] - re;
                grid.im[high] = grid.im[low] - im;
                grid.re[low] += re;
                grid.im[low] += im;
            }
        }
    }
}

/// Weights turned by the middle frequency, spread over the grid by exp(-(distance)^2 / (4 tau)).
EvenGrid spread_weights(std::span<const double> x, std::span<const double> weights, const FrequencyGrid& grid, std::size_t cells,
                        double tau) {
    EvenGrid even{std::vector<double>(cells, 0), std::vector<double>(cells, 0)};
    const double middle = grid.at(cells / 4), cell = whole_circle / static_cast<double>(cells);
    for (std::size_t i = 0; i < x.size(); ++i) {
        const double turns = grid.step * x[i], angle = whole_circle * (turns - std::floor(turns)), phase = whole_circle * middle * x[i];
        const double re = weights[i] * std::cos(phase), im = weights[i] * std::sin(phase);
        const auto nearest = static_cast<long>(std::floor(angle / cell));
        for (long m = nearest - spread + 1; m <= nearest + spread; ++m) {
            const double distance = angle - static_cast<double>(m) * cell, share = std::exp(-distance * distance / (4 * tau));
            const auto place = static_cast<std::size_t>(m + static_cast<long>(cells)) % cells;
            even.re[place] += share * re;
            even.im[place] += share * im;
        }
    }
    return even;
}

}  // namespace

FourierSums fourier_sums(std::span<const double> x, std::span<const double> weights, const FrequencyGrid& grid) {
    // Frequencies are counted from the middle one; the grid is twice as fine as they ask for, and wide enough for the spread.
    const std::size_t frequencies = std::bit_ceil(std::max<std::size_t>(grid.count, 2 * spread)), cells = 2 * frequencies;
    const auto M = static_cast<double>(frequencies);
    const double tau = std::numbers::pi * spread / (M * M * 2 * (2 - 0.5));
    EvenGrid even = spread_weights(x, weights, grid, cells, tau);
    transform(even);
    FourierSums sums{std::vector<double>(grid.count), std::vector<double>(grid.count)};
    for (std::size_t i = 0; i < grid.count; ++i) {
        const double k = static_cast<double>(i) - M / 2;
        const double divided = std::sqrt(std::numbers::pi / tau) * std::exp(k * k * tau) / static_cast<double>(cells);
        const std::size_t place = (i + cells - frequencies / 2) % cells;
        sums.cosine[i] = divided * even.re[place];
        sums.sine[i] = divided * even.im[place];
    }
    return sums;
}

}  // namespace wayfolio::evaluate
