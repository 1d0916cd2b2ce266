#include "document/read/series_reading.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numbers>

namespace wayfolio::document {
namespace {

constexpr std::string_view expected_reading = "a number, or null for a missing reading";

/// A rotary axis reads the same after every turn: 359.999 deg near a target at 0 is 0.001 deg short of it.
Deviation within_half_a_turn(const Deviation& read, const Series& series) {
    if (!series.error.axis_is_rotary() || series.error.kind() != ErrorKind::Positioning) return read;
    constexpr double microradians = 2e6 * std::numbers::pi;
    const double turn = Deviation(microradians, units::microradian).in(series.unit), size = std::abs(read.in(series.unit));
    if (size <= turn / 2) return read;
    return Deviation(std::remainder(read.in(series.unit), turn) + 0.0, series.unit);
}

void read_deviations(ObjectReader& reader, Run& run, SeriesReading& at) {
    reader.require("deviations", "one reading for each target");
    const Value* const member = reader.value().member("deviations");
    const auto items = reader.array("deviations", "an array of readings");
    if (member == nullptr || !member->is(JsonKind::Array)) return;
    // The first station of steps has no reading: it is the height that the others are counted from.
    const std::size_t without = at.is_steps() ? 1 : 0;
    const std::size_t targets = at.series.targets.size();
    if (at.targets_known && items.size() + without != targets)
        at.reading.faults.add_wrong(
            *member, without == 0 ? fmt::format("one reading for each of the {} targets", targets)
                                  : fmt::format("one reading fewer than the {} stations", targets),
            "a missing reading is null");
    run.deviations.reserve(items.size() + without);
    if (without == 1) run.deviations.emplace_back();
    const NumberRule& rule = deviation_rule(at.series.unit);
    for (const Value& item : items) {
        const bool number = item.is(JsonKind::Number);
        if (!number && !item.is(JsonKind::Null)) at.reading.faults.add_wrong(item, std::string(expected_reading));
        const auto written = number ? reader.number_of(item, rule) : std::nullopt;
        if (!written) run.deviations.emplace_back();
        else run.deviations.emplace_back(within_half_a_turn(Deviation(at.actual_minus_target(*written), at.series.unit), at.series));
    }
}

void read_exclusion(const Value& value, Run& run, SeriesReading& at) {
    ObjectReader reader(value, at.reading.faults, "a target and the reason");
    reader.require("target", "the place of the target, counted from 0");
    const std::size_t first = at.is_steps() ? 1 : 0;
    const std::size_t targets = at.series.targets.size();
    const auto target = reader.whole("target", first, at.targets_known ? std::max(targets, first + 1) - 1 : 1'000'000);
    std::string reason = reader.required_text("reason", "why the reading is excluded");
    reader.finish();
    if (!target) return;
    if (run.exclusion(*target) != nullptr) at.reading.faults.add_wrong(*value.member("target"), "each target once");
    run.excluded.push_back({*target, std::move(reason)});
}

}  // namespace

Run read_run(const Value& value, SeriesReading& at) {
    ObjectReader reader(value, at.reading.faults, "a run");
    Run run;
    if (const auto approach = reader.required_choice("approach", "a direction of approach", approaches)) run.approach = *approach;
    run.started = read_date(reader, "started");
    run.ended = read_date(reader, "ended");
    check_order(reader, "started", "ended");
    read_deviations(reader, run, at);
    for (const Value& item : reader.array("excluded", "an array of excluded readings")) read_exclusion(item, run, at);
    reader.finish();
    return run;
}

}  // namespace wayfolio::document
