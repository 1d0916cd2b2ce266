#pragma once
#include "evaluate/moment.hpp"

#include <optional>
#include <string>

namespace wayfolio::report {

/// Reads times of one document as minutes from midnight of the day of its first sample, by the clock that sample was written in.
class RecordClock {
public:
    /// @param first a date with time, as the reader accepts it
    explicit RecordClock(const std::string& first);
    [[nodiscard]] bool runs() const { return first_.has_value(); }
    [[nodiscard]] std::optional<double> minutes(const std::string& time) const;

private:
    std::optional<double> first_;
    double minutes_of_first_ = 0;
};

/// "08:20"; whole minutes, past midnight beginning anew.
std::string clock_words(double minutes);

}  // namespace wayfolio::report
