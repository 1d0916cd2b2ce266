#pragma once
#include "evaluate/numbers/trace/running_hull.hpp"

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

    void add(const TracePoint& point);
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

    [[nodiscard]] std::size_t column_of(double x) const;
    [[nodiscard]] double about(const TracePoint& point) const { return point.y - slope_ * (point.x - low_); }
    void widen(Stay& stay, const Stay& by) const;
    void coarsen();
    void keep_band();

    double low_, columns_a_unit_, slope_;
    std::size_t columns_ = most_columns;
    std::vector<Stay> stays_;
    bool band_ = false;  ///< one stay a column, by column; those without samples have none
    std::vector<bool> passed_;
};

}  // namespace wayfolio::evaluate
