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
};

/// A limit while it was in force.
struct HistoryLimit {
    double from, to, value;
};

/// A straight line through values, and on to where it meets a limit.
struct HistoryTrend {
    double from, to, at_from, at_to;
    std::optional<double> ahead, at_ahead;
};

struct HistoryPanel {
    std::string id;
    Text title;               ///< "EXX, E / µm"
    Text words;               ///< what the trend says, and what to look at
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
