#pragma once
#include "evaluate/numbers/trace/gaussian.hpp"
#include "evaluate/trace/trace_lines.hpp"

#include <optional>

namespace wayfolio::evaluate {

/// A trace as it goes through the low-pass of the cut-off that its document states.
class FilteredTrace {
public:
    /// @param series whose trace has a cut-off
    /// @param lengths of windows in mm, or nothing for an error that has no reference line
    FilteredTrace(const document::Series& series, const std::optional<std::vector<double>>& lengths);

    void add(const Stretch& stretch);
    [[nodiscard]] Evaluated<TraceFiltered> evaluation() const;

private:
    void take(const GaussianLowPass::Value& value);

    const document::Series& series_;
    GaussianLowPass filter_;
    std::optional<TraceLines> lines_;
    TraceExtremes extremes_;
    double last_x_ = 0, last_y_ = 0;
    bool second_of_pass_ = false;  ///< what comes next
    bool makes_way_ = false;       ///< two values in one pass
};

}  // namespace wayfolio::evaluate
