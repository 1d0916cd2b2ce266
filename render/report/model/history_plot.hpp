#pragma once
#include "report/model/text.hpp"
#include "report/model/verdict.hpp"

#include <optional>
#include <string>
#include <vector>

/// What the figure of a history shows: parameters over years. Times are days from 1970-01-01, values stand in the shown unit of their
/// panel.
namespace wayfolio::report {

/// How the machine was when a value was measured, or that it is not held against the others.
enum class HistoryMark { Found, Left, Apart };

struct HistoryValue {
    double day, value;
    std::optional<double> expanded;
    HistoryMark mark;
    Standing standing;
    Text label{};  ///< its number, at the first value and the last ones; else empty
};

/// A limit while it was in force.
struct HistoryLimit {
    double from, to, value;
    double U = 0;  ///< of the latest value that was held against it: hatched on both sides
};

/// A straight line through values between two adjustments.
struct HistoryTrend {
    double from, to, at_from, at_to;
};

struct HistoryPanel {
    std::string id;
    Text title;               ///< "EXX, E / µm"
    Text words;               ///< what the slope says, and what to look at: below the panel
    bool from_zero;           ///< a range: its scale begins at zero
    std::vector<HistoryValue> values;
    std::vector<HistoryLimit> limits;
    Text limit_label;         ///< "limit 10 µm"
    std::optional<HistoryTrend> trend;
    std::string alternative;  ///< what a colleague would say over the phone
};

/// Small multiples on one time axis.
struct HistoryPlot {
    double from, to;
    std::vector<HistoryPanel> panels;
};

}  // namespace wayfolio::report
