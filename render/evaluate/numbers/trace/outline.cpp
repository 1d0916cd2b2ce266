#include "evaluate/numbers/trace/outline.hpp"

#include <algorithm>

namespace wayfolio::evaluate {

TraceOutline::TraceOutline(double low, double high, double slope)
    : low_(low), columns_a_unit_(high > low ? static_cast<double>(most_columns) / (high - low) : 0), slope_(slope) {}

void TraceOutline::widen(Stay& stay, const Stay& by) const {
    if (about(by.least) < about(stay.least)) stay.least = by.least;
    if (about(by.greatest) > about(stay.greatest)) stay.greatest = by.greatest;
    stay.last = by.last;
}

/// Anywhere but in the stay that the last point was in.
void TraceOutline::add_to_other(std::size_t column, const TracePoint& point) {
    if (band_) return add_to_band(column, point);
    stays_.push_back({column, point, point, point, point});
    while (!band_ && stays_.size() > most_stays) columns_ > fewest_columns ? coarsen() : keep_band();
    least_ = about(stays_.back().least);
    greatest_ = about(stays_.back().greatest);
}

void TraceOutline::add_to_band(std::size_t column, const TracePoint& point) {
    const Stay one{column, point, point, point, point};
    if (passed_[column])
        widen(stays_[column], one);
    else
        stays_[column] = one;
    passed_[column] = true;
}

/// Two columns become one, and stays that follow each other in it become one.
void TraceOutline::coarsen() {
    columns_ /= 2;
    columns_a_unit_ /= 2;
    std::vector<Stay> coarse;
    for (Stay stay : stays_) {
        stay.column /= 2;
        if (!coarse.empty() && coarse.back().column == stay.column)
            widen(coarse.back(), stay);
        else
            coarse.push_back(stay);
    }
    stays_ = std::move(coarse);
}

void TraceOutline::keep_band() {
    band_ = true;
    passed_.assign(columns_, false);
    std::vector<Stay> by_column(columns_);
    for (const Stay& stay : stays_) {
        if (passed_[stay.column])
            widen(by_column[stay.column], stay);
        else
            by_column[stay.column] = stay;
        passed_[stay.column] = true;
    }
    stays_ = std::move(by_column);
}

std::vector<TracePoint> TraceOutline::points() const {
    std::vector<TracePoint> all;
    for (std::size_t place = 0; place < stays_.size(); ++place) {
        const Stay& stay = stays_[place];
        if (band_ && !passed_[place]) continue;
        std::vector<TracePoint> four =
            band_ ? std::vector{stay.least, stay.greatest} : std::vector{stay.first, stay.least, stay.greatest, stay.last};
        std::ranges::sort(four, {}, &TracePoint::sample);
        for (const TracePoint& point : four)
            if (all.empty() || all.back().sample != point.sample) all.push_back(point);
    }
    return all;
}

}  // namespace wayfolio::evaluate
