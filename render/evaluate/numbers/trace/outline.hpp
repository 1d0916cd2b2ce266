#pragma once
#include "evaluate/numbers/trace/running_hull.hpp"

#include <algorithm>
#include <cstddef>
#include <vector>

namespace wayfolio::evaluate {

/// What of a trace can be seen on paper: the way is cut into columns, finer than a printer's dots, and of the samples that come one after
/// the other within a column four are kept, the first, the least, the greatest and the last. What is held does not grow with the samples:
/// where passes go by too often, columns become coarser, and where even that is not enough, each keeps its least and its greatest alone,
/// so that what is drawn is the band that all passes fill.
class TraceOutline {
public:
    /// @param low,high the way that will be gone through
    /// @param slope of the line that the trace is drawn about: least and greatest are those about it
    TraceOutline(double low, double high, double slope);

    void add(const TracePoint& point) {
        const std::size_t column = column_of(point.x);
        if (band_ || stays_.empty() || stays_.back().column != column) return add_to_other(column, point);
        Stay& stay = stays_.back();
        const double value = about(point);
        if (value < least_) stay.least = point, least_ = value;
        if (value > greatest_) stay.greatest = point, greatest_ = value;
        stay.last = point;
    }
    /// In the order of time, or along the way where only the band is left.
    [[nodiscard]] std::vector<TracePoint> points() const;

private:
    /// 297 mm, the longer side of a page, have 7016 dots of 600 dpi: four columns a dot.
    static constexpr std::size_t most_columns = 28'672, fewest_columns = most_columns / 4, most_stays = 5 * most_columns;

    /// Samples that follow each other in one column.
    struct Stay {
        std::size_t column;
        TracePoint first, least, greatest, last;
    };

    [[nodiscard]] std::size_t column_of(double x) const {
        const double column = std::clamp((x - low_) * columns_a_unit_, 0.0, static_cast<double>(columns_ - 1));
        return static_cast<std::size_t>(static_cast<std::ptrdiff_t>(column));  // one instruction; of an unsigned number several
    }
    [[nodiscard]] double about(const TracePoint& point) const { return point.y - slope_ * (point.x - low_); }
    void widen(Stay& stay, const Stay& by) const;
    void add_to_other(std::size_t column, const TracePoint& point);
    void add_to_band(std::size_t column, const TracePoint& point);
    void coarsen();
    void keep_band();

    double low_, columns_a_unit_, slope_;
    std::size_t columns_ = most_columns;
    std::vector<Stay> stays_;
    double least_ = 0, greatest_ = 0;  ///< of the last stay, about the line
    bool band_ = false;  ///< one stay a column, by column; those without samples have none
    std::vector<bool> passed_;
};

}  // namespace wayfolio::evaluate
