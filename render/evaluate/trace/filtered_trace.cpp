#include "evaluate/trace/filtered_trace.hpp"

#include "evaluate/trace/plain_numbers.hpp"
#include "units/number_text.hpp"

#include <fmt/format.h>

namespace wayfolio::evaluate {

FilteredTrace::FilteredTrace(const document::Series& series, const std::optional<std::vector<double>>& lengths)
    : series_(series), filter_(*series.trace->cutoff * series.position_unit.in_natural) {
    if (lengths) lines_.emplace(series, TraceLines::Of::FilteredValues, *lengths);
}

void FilteredTrace::add(const Stretch& stretch) {
    filter_.add(stretch, [this](const GaussianLowPass::Value& value) { take(value); });
}

void FilteredTrace::take(const GaussianLowPass::Value& value) {
    const TracePoint point{extremes_.count, value.x, value.y};
    extremes_.add(point);
    if (lines_) lines_->add(std::span(&point, 1));
    if (lines_ && !value.begins_pass) {
        const Stretch stretch{value.approach, second_of_pass_, last_x_, last_y_, value.x, value.y};
        lines_->add(std::span(&stretch, 1));
        makes_way_ = true;
    }
    second_of_pass_ = value.begins_pass;
    last_x_ = value.x;
    last_y_ = value.y;
}

Evaluated<TraceFiltered> FilteredTrace::evaluation() const {
    constexpr double fewest_in_a_cutoff = 4;
    const double cutoff = *series_.trace->cutoff * series_.position_unit.in_natural;
    const auto shown = [&](double way) {
        return fmt::format("{} {}", units::shortest(way / series_.position_unit.in_natural), series_.position_unit.spelling);
    };
    if (filter_.longest_stretch() > cutoff / fewest_in_a_cutoff)
        return NotEvaluated{fmt::format("samples are up to {} apart: a cut-off of {} needs four in its length at least",
                                        shown(filter_.longest_stretch()), shown(cutoff))};
    if (extremes_.count == 0)
        return NotEvaluated{fmt::format("no pass is longer than two cut-off lengths of {}: the first and the last of each are left out, "
                                        "for the filter reaches beyond the pass there",
                                        shown(cutoff))};
    const auto place = [&](const TracePoint& point) {
        return TracePlace{std::nullopt, plain_position(series_, point.x), plain_deviation(series_, point.y)};
    };
    TraceFiltered filtered{.values = extremes_.count, .highest = place(extremes_.highest), .lowest = place(extremes_.lowest)};
    if (!lines_) return filtered;
    if (makes_way_) filtered.lines = lines_->lines();
    else filtered.lines = NotEvaluated{"one filtered value a pass: there is no line through it"};
    filtered.local = lines_->local();
    return filtered;
}

}  // namespace wayfolio::evaluate
