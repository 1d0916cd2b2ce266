#pragma once
#include "document/read/reading.hpp"

/// The parts of read_series(). Private to this room.
namespace wayfolio::document {

/// A series being read: its head (symbol, units, sign, targets) is complete before runs, trace and stated values are read.
struct SeriesReading {
    Reading& reading;
    Series series;
    bool targets_known = false;  ///< the targets were there and without fault, so that counts can be held against them

    [[nodiscard]] bool is_steps() const { return series.steps_base_mm.has_value(); }
    /// A signed number of the document as actual minus target. Subtracting from +0 and adding +0 leave no negative zero.
    [[nodiscard]] double actual_minus_target(double written) const {
        return series.target_minus_actual ? 0.0 - written : written + 0.0;
    }
};

Run read_run(const Value& value, SeriesReading& at);
Trace read_trace(const Value& value, SeriesReading& at);
Plan read_plan(const Value& value, SeriesReading& at);
void read_stated(const Value& value, SeriesReading& at);
std::optional<Tolerance> read_tolerance(const Value& value, SeriesReading& at);

inline constexpr std::size_t most_samples = 100'000;  ///< that are held, or stand in the document itself
inline constexpr std::array<Word<Approach>, 2> approaches{
    {{word(Approach::Positive), Approach::Positive}, {word(Approach::Negative), Approach::Negative}}};

}  // namespace wayfolio::document
