#pragma once
#include <cstddef>

/// How many of a kind a document may hold: several times what the largest honest job has, and little enough that its report can be made in
/// seconds. By choice; the schema names the same.
namespace wayfolio::document {

struct CountLimits {
    static constexpr std::size_t series = 300, states = 20, targets = 10'000, runs = 1'000, tolerances = 100;
    static constexpr std::size_t axes = 100, sensors = 1'000, instruments = 100, people = 50;
    static constexpr std::size_t checks = 500, measurement_lines = 500, samples = 100'000;
    static constexpr std::size_t contributors = 100, applies_to = 100, stated_uncertainties = 1'000, capabilities = 1'000;
    static constexpr std::size_t drift_records = 100, squarenesses = 100, compensations = 100;
    static constexpr std::size_t address_lines = 20, remarks = 100, origin_files = 1'000, facts_files = 100, limits = 500;
};

}  // namespace wayfolio::document
