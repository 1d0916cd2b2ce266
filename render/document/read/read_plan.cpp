#include "document/read/series_reading.hpp"

#include <array>

namespace wayfolio::document {
namespace {

constexpr std::array<Word<RunOrder>, 2> orders{
    {{"alternating", RunOrder::Alternating}, {"one-approach-first", RunOrder::OneApproachFirst}}};

}  // namespace

Plan read_plan(const Value& value, SeriesReading& at) {
    ObjectReader reader(value, at.reading.faults, "an object: positive_runs, negative_runs, order, seed");
    constexpr std::uint64_t largest_seed = 1'000'000'000;
    Plan plan;
    plan.runs.positive = reader.whole("positive_runs", 0, CountLimits::runs).value_or(0);
    plan.runs.negative = reader.whole("negative_runs", 0, CountLimits::runs).value_or(0);
    if (reader.is_object() && plan.runs.positive + plan.runs.negative == 0)
        at.reading.faults.add_wrong(value, "at least one run to be made: positive_runs, negative_runs or both");
    plan.order = reader.choice("order", "an order of runs", orders).value_or(RunOrder::Alternating);
    plan.seed = reader.whole("seed", 0, largest_seed);
    reader.finish();
    return plan;
}

}  // namespace wayfolio::document
