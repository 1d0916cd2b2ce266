#include "evaluate/numbers/trace/sliding_zone.hpp"

#include "evaluate/numbers/reference_lines.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {
namespace {

using document::Approach;

/// Points with rising x as places with their least and greatest.
struct Places {
    std::vector<double> x, low, high;

    void add(const TracePoint& point) {
        if (x.empty() || x.back() != point.x) {
            x.push_back(point.x), low.push_back(point.y), high.push_back(point.y);
            return;
        }
        low.back() = std::min(low.back(), point.y);
        high.back() = std::max(high.back(), point.y);
    }
    /// Nothing where all stand at one place.
    [[nodiscard]] std::optional<double> least_zone() const {
        if (x.size() < 2) return std::nullopt;
        const Line chord{(low.back() - low.front()) / (x.back() - x.front()), x.front(), low.front()};
        const Line middle = minimum_zone_line(chord, x, low, high);
        return extremes_about(middle, x, high).highest - extremes_about(middle, x, low).lowest;
    }
};

/// What rounding of positions may put a sample on the wrong side of a border.
constexpr double border_share = 1e-9;

}  // namespace

void SlidingZone::add(const Stretch& stretch) {
    longest_ = std::max(longest_, stretch.way());
    if (stretch.begins_pass) begin_pass(stretch);
    end_ = stretch.to_x;
    const double along = std::abs(end_ - start_);
    if (along < border_) hull_.add({0, stretch.to_x, stretch.to_y});  // nearly every sample
    else add_at_border(stretch.to_x, stretch.to_y, along);
}

void SlidingZone::begin_pass(const Stretch& stretch) {
    end_pass();
    approach_ = stretch.approach;
    start_ = end_ = stretch.from_x;
    begin_step(0);
    hull_.clear();
    hull_.add({0, stretch.from_x, stretch.from_y});
}

void SlidingZone::begin_step(std::size_t number) {
    number_ = number;
    border_ = step_ * static_cast<double>(number_ + 1) - border_share * length_;
}

/// A sample at the border of two steps belongs to both.
void SlidingZone::add_at_border(double x, double y, double along) {
    const double border = border_share * length_;
    if (along > step_ * static_cast<double>(number_ + 2 * steps)) {  // nothing that a window holds is left
        end_step();
        done_.assign(steps + 1, {});
        begin_step(static_cast<std::size_t>(along / step_));
    }
    while (along > step_ * static_cast<double>(number_ + 1) + border) end_step();
    hull_.add({0, x, y});
    if (along >= border_) {
        end_step();
        hull_.add({0, x, y});
    }
}

void SlidingZone::end_step() {
    done_.push_back(hull_.corners());
    hull_.clear();
    begin_step(number_ + 1);
    if (done_.size() > steps + 1) done_.pop_front();
    if (done_.size() >= steps) look_at(steps);
    if (done_.size() > steps) look_at(steps + 1);
}

/// The last steps, as many as asked for.
void SlidingZone::look_at(std::size_t steps_of_window) {
    Places places;
    const auto take = [&](const Points& points) {
        for (const TracePoint& point : points) places.add(point);
    };
    const auto first = done_.end() - static_cast<std::ptrdiff_t>(steps_of_window);
    if (approach_ == Approach::Positive) std::for_each(first, done_.end(), take);
    else std::for_each(done_.rbegin(), done_.rbegin() + static_cast<std::ptrdiff_t>(steps_of_window), take);
    const double zone = places.least_zone().value_or(0);
    if (!largest_) largest_ = Largest{-1, 0, 0, 0};
    largest_->at_most = std::max(largest_->at_most, zone);
    if (steps_of_window > steps || zone <= largest_->value) return;
    const double begin = step_ * static_cast<double>(number_ - steps), way = approach_ == Approach::Positive ? 1 : -1;
    const double one = start_ + way * begin, other = start_ + way * std::min(begin + length_, std::abs(end_ - start_));
    largest_ = Largest{zone, largest_->at_most, std::min(one, other), std::max(one, other)};
}

void SlidingZone::end_pass() {
    if (std::abs(end_ - start_) >= length_ * (1 - border_share)) end_step();
    done_.clear();
}

std::optional<SlidingZone::Largest> SlidingZone::largest() const {
    SlidingZone all = *this;
    all.end_pass();
    return all.largest_;
}

}  // namespace wayfolio::evaluate
