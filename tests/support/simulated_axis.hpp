#pragma once
#include "evaluate/numbers/monte_carlo.hpp"
#include "support/documents.hpp"

#include <cmath>
#include <functional>

/// Jobs with a known axis and, where asked, a known fault, for judging the hints.
namespace wayfolio::support {

/// A reading about to be taken; `order` counts runs from 0 in the order they are made.
struct Taken {
    double x;  ///< mm
    bool positive;
    int run;  ///< within its direction
    int order;
    std::size_t target, targets;
};

using Fault = std::function<double(const Taken&)>;

struct AxisPlan {
    double length_mm = 1000;
    std::size_t targets = 13;
    int runs_each_way = 5;
    double noise_um = 0.3, reversal_um = -1.5, lead_um_per_m = 4;
};

/// A positioning series of the X axis, runs alternating, five minutes each, with random targets: lead error, constant reversal,
/// noise, and what `fault` adds.
inline document::Document simulated_job(std::uint64_t seed, const AxisPlan& plan, const Fault& fault) {
    evaluate::Draws draws(seed);
    std::vector<double> targets;
    const double pitch = plan.length_mm / static_cast<double>(plan.targets - 1);
    for (std::size_t i = 0; i < plan.targets; ++i) {
        const bool end = i == 0 || i + 1 == plan.targets;
        targets.push_back(pitch * static_cast<double>(i) + (end ? 0 : pitch * draws.rectangular(-0.3, 0.3)));
    }
    document::Series series = support::series("EXX", targets, {}, {});
    series.id = "x";
    for (int order = 0; order < 2 * plan.runs_each_way; ++order) {
        const bool positive = order % 2 == 0;
        std::vector<double> readings;
        for (std::size_t i = 0; i < targets.size(); ++i) {
            const Taken taken{targets[i], positive, order / 2, order, i, targets.size()};
            readings.push_back(plan.lead_um_per_m * targets[i] / 1000 + (positive ? 0.5 : -0.5) * plan.reversal_um +
                               plan.noise_um * draws.normal(0, 1) + (fault ? fault(taken) : 0));
        }
        series.runs.push_back(
            support::run(positive ? document::Approach::Positive : document::Approach::Negative, readings, units::micrometre));
        const auto clock = [](int minute) {
            return "2026-05-11T" + std::string(minute < 600 ? "0" : "") + std::to_string(minute / 60) +
                   (minute % 60 < 10 ? ":0" : ":") + std::to_string(minute % 60) + "Z";
        };
        series.runs.back().started = clock(480 + 5 * order);
        series.runs.back().ended = clock(484 + 5 * order);
    }
    document::Document document = support::document(series);
    support::add_axis(document, "X", 0, plan.length_mm);
    return document;
}

}  // namespace wayfolio::support
