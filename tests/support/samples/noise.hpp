#pragma once
#include <cmath>
#include <cstdint>
#include <random>

namespace wayfolio::samples {

/// Random numbers that come out alike on every machine. std::mt19937_64 is fixed by the C++ standard; its distributions are
/// not, so the transforms are our own and use only additions and multiplications.
class Noise {
public:
    explicit Noise(std::uint64_t seed) : engine_(seed) {}

    /// Uniform in [0, 1), on the grid of 2^-53.
    double uniform() { return static_cast<double>(engine_() >> 11) * 0x1p-53; }

    /// Mean 0, standard deviation 1: twelve uniforms added, less six. Its tails end at 6, which does for sample data.
    double normal() {
        double sum = -6;
        for (int i = 0; i < 12; ++i) sum += uniform();
        return sum;
    }

private:
    std::mt19937_64 engine_;
};

/// What an instrument shows that resolves 1/steps_per_unit. The last digits of sin() and exp() differ between C libraries;
/// after this they no longer show.
inline double shown(double value, double steps_per_unit) { return std::round(value * steps_per_unit) / steps_per_unit + 0.0; }

}  // namespace wayfolio::samples
