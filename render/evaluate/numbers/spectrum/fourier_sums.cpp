#include "evaluate/numbers/spectrum/fourier_sums.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <numbers>
#include <utility>

namespace wayfolio::evaluate {
namespace {

constexpr double whole_circle = 2 * std::numbers::pi;
/// Cells to each side that a weight is spread over. With a grid twice as fine as the frequencies ask for, 12 leave about 1e-12.
constexpr int spread = 12;

/// Two weightings go through one transform beside each other: as many doubles as every x86-64 and ARM takes in one step. As an extension
/// of the compilers, for left to themselves they shuffle more than they compute; four go through memory, and take four times as long.
constexpr std::size_t lanes = 2;
using Lanes = double __attribute__((vector_size(lanes * sizeof(double))));

/// A complex number of either lane.
struct Cell {
    Lanes re{}, im{};
};

/// Even over the circle; as many cells as a power of two.
using EvenGrid = std::vector<Cell>;

void put_in_bit_reversed_order(EvenGrid& grid) {
    const std::size_t n = grid.size();
    for (std::size_t i = 1, j = 0; i < n; ++i) {
        std::size_t bit = n / 2;
        for (; (j & bit) != 0; bit /= 2) j ^= bit;
        j ^= bit;
        if (i < j) std::swap(grid[i], grid[j]);
    }
}

/// low + turned and low - turned, where high is turned by the angle of this cosine and sine.
void butterfly(Cell& low, Cell& high, double c, double s) {
    const Lanes re = high.re * c - high.im * s, im = high.re * s + high.im * c;
    const Cell a = low;
    high = {a.re - re, a.im - im};
    low = {a.re + re, a.im + im};
}

/// Cosine and sine of half a circle, in so many steps as the transform of twice as many cells asks for.
struct Turns {
    explicit Turns(std::size_t steps) : cosine(steps), sine(steps) {
        for (std::size_t i = 0; i < steps; ++i) {
            const double angle = whole_circle * static_cast<double>(i) / static_cast<double>(2 * steps);
            cosine[i] = std::cos(angle);
            sine[i] = std::sin(angle);
        }
    }
    std::vector<double> cosine, sine;
};

/// Fast Fourier transform in place, radix 2, with exp(+i): what stands at m becomes the sum over l of g(l) exp(2 pi i l m / n).
/// Our own, for only these lines of the sums over uneven places are a plain transform: FFTW chooses its way by the processor, so that last
/// digits would depend on the machine, and its planner is global; a library of a few lines' use is one more for whoever installs.
void transform(EvenGrid& grid, const Turns& turns) {
    put_in_bit_reversed_order(grid);
    const std::size_t n = grid.size();
    for (std::size_t half = 1; half < n; half *= 2) {
        const std::size_t stride = n / (2 * half);
        for (std::size_t begin = 0; begin < n; begin += 2 * half)
            for (std::size_t i = 0; i < half; ++i)
                butterfly(grid[begin + i], grid[begin + i + half], turns.cosine[i * stride], turns.sine[i * stride]);
    }
}

/// Where the weight at one place goes: turned by the middle frequency, shared out over the cells about it.
struct Spread {
    double cosine, sine;
    long first;  ///< cell, before it is wrapped around the circle
    std::array<double, 2 * spread> shares;
};

/// Shares fall by exp(-(distance)^2 / (4 tau)).
std::vector<Spread> spread_places(std::span<const double> x, const FrequencyGrid& grid, std::size_t cells, double tau) {
    const double middle = grid.at(cells / 4), cell = whole_circle / static_cast<double>(cells);
    std::vector<Spread> places(x.size());
    for (std::size_t i = 0; i < x.size(); ++i) {
        const double turns = grid.step * x[i], angle = whole_circle * (turns - std::floor(turns)), phase = whole_circle * middle * x[i];
        Spread& place = places[i];
        place.cosine = std::cos(phase);
        place.sine = std::sin(phase);
        place.first = static_cast<long>(std::floor(angle / cell)) - spread + 1;
        for (long m = 0; m < 2 * spread; ++m) {
            const double distance = angle - static_cast<double>(place.first + m) * cell;
            place.shares[static_cast<std::size_t>(m)] = std::exp(-distance * distance / (4 * tau));
        }
    }
    return places;
}

void spread_weights(EvenGrid& even, std::size_t lane, const std::vector<Spread>& places, std::span<const double> weights) {
    for (std::size_t i = 0; i < places.size(); ++i) {
        const double re = weights[i] * places[i].cosine, im = weights[i] * places[i].sine;
        for (std::size_t m = 0; m < 2 * spread; ++m) {
            Cell& cell = even[static_cast<std::size_t>(places[i].first + static_cast<long>(m + even.size())) % even.size()];
            cell.re[lane] += places[i].shares[m] * re;
            cell.im[lane] += places[i].shares[m] * im;
        }
    }
}

/// What the spreading has to be divided out by, at every frequency.
std::vector<double> divisors(std::size_t count, double M, double tau) {
    std::vector<double> all(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double k = static_cast<double>(i) - M / 2;
        all[i] = std::sqrt(std::numbers::pi / tau) * std::exp(k * k * tau) / (2 * M);
    }
    return all;
}

FourierSums sums_of(const EvenGrid& even, std::size_t lane, const std::vector<double>& divided) {
    const std::size_t count = divided.size(), cells = even.size();
    FourierSums sums{std::vector<double>(count), std::vector<double>(count)};
    for (std::size_t i = 0; i < count; ++i) {
        const Cell& cell = even[(i + cells - cells / 4) % cells];
        sums.cosine[i] = divided[i] * cell.re[lane];
        sums.sine[i] = divided[i] * cell.im[lane];
    }
    return sums;
}

}  // namespace

std::vector<FourierSums> fourier_sums(std::span<const double> x, std::span<const Weighting> all) {
    std::vector<FourierSums> sums;
    if (all.empty()) return sums;
    // Frequencies are counted from the middle one; the grid is twice as fine as they ask for, and wide enough for the spread.
    const std::size_t count = all.front().grid.count, frequencies = std::bit_ceil(std::max<std::size_t>(count, 2 * spread));
    const auto M = static_cast<double>(frequencies);
    const double tau = std::numbers::pi * spread / (M * M * 2 * (2 - 0.5));
    const std::vector<double> divided = divisors(count, M, tau);
    const Turns turns(frequencies);
    std::vector<Spread> places;
    const FrequencyGrid* spread_for = nullptr;
    for (std::size_t first = 0; first < all.size(); first += lanes) {
        const auto some = all.subspan(first, std::min(lanes, all.size() - first));
        EvenGrid even(2 * frequencies);
        for (std::size_t lane = 0; lane < some.size(); ++lane) {
            if (!spread_for || *spread_for != some[lane].grid) places = spread_places(x, some[lane].grid, even.size(), tau);
            spread_for = &some[lane].grid;
            spread_weights(even, lane, places, some[lane].weights);
        }
        transform(even, turns);
        for (std::size_t lane = 0; lane < some.size(); ++lane) sums.push_back(sums_of(even, lane, divided));
    }
    return sums;
}

}  // namespace wayfolio::evaluate
