#pragma once
#include "evaluate/numbers/trace/passes.hpp"
#include "evaluate/numbers/trace/running_hull.hpp"

#include <deque>
#include <optional>
#include <vector>

namespace wayfolio::evaluate {

/// Local straightness of a record on the fly: the width of the strip of least width (minimum zone) around all samples in a window, which is
/// moved along each pass from its beginning on by a fiftieth of its length. Of each fiftieth only the corners of its hull are kept, which
/// give every such strip exactly, and however many samples there are, at most so many hulls are held. Whatever window of this length is
/// taken, it lies within one step more than a window: the largest of those is given beside.
class SlidingZone {
public:
    static constexpr std::size_t steps = 50;  ///< by choice

    /// @param length in the unit of positions
    explicit SlidingZone(double length) : length_(length), step_(length / steps) {}
    void add(const Stretch& stretch);

    struct Largest {
        double value;
        double at_most;   ///< of a window at any place
        double from, to;  ///< the first window with this value; from is lower
    };
    /// Nothing where no pass is as long as the window.
    [[nodiscard]] std::optional<Largest> largest() const;
    /// The longest way between two samples.
    [[nodiscard]] double longest_stretch() const { return longest_; }

private:
    using Points = std::vector<TracePoint>;

    void begin_pass(const Stretch& stretch);
    void end_pass();
    void add_at_border(double x, double y, double along);
    void begin_step(std::size_t number);
    void end_step();
    void look_at(std::size_t steps_of_window);

    double length_, step_;
    double longest_ = 0;
    document::Approach approach_ = document::Approach::Positive;
    double start_ = 0, end_ = 0;      ///< of the pass so far
    std::size_t number_ = 0;          ///< of the step that is filled
    double border_ = 0;               ///< that it is left at, or shortly before
    RunningHull hull_;                ///< of that step
    std::deque<Points> done_;         ///< steps before it, at most one more than a window has
    std::optional<Largest> largest_;
};

}  // namespace wayfolio::evaluate
