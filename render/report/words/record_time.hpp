#pragma once
#include "evaluate/surroundings/time.hpp"

#include <cstddef>
#include <optional>
#include <string>

namespace wayfolio::report {

/// Reads times of one document as minutes from midnight of the day of its first sample, by the clock that sample was written in.
class RecordClock {
public:
    /// @param first a date with time, as the reader accepts it
    explicit RecordClock(const std::string& first);
    [[nodiscard]] bool runs() const { return first_.has_value(); }
    /// Nothing for what is not a date with time, or where the clock does not run.
    [[nodiscard]] std::optional<double> minutes(const std::string& time) const;

private:
    std::optional<double> first_;
    double minutes_of_first_ = 0;
};

/// "on 2026-05-11 from 08:20 to 11:00"; over several days "from 2026-05-11 08:20 over 46 h".
/// @param from, to  minutes from midnight of that day
std::string span_words(const std::string& first_day, double from, double to);

/// First, last, lowest and highest of values in the order they were recorded, in their own unit.
struct RecordRange {
    double first = 0, last = 0, low = 0, high = 0;
    std::size_t count = 0;  ///< 0: the others say nothing
    void add(double value);
};

/// "08:20"; whole minutes, past midnight beginning anew.
std::string clock_words(double minutes);

}  // namespace wayfolio::report
