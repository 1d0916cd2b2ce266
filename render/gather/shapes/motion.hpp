#pragma once
#include "gather/mapping/mapping.hpp"

#include <optional>
#include <vector>

namespace wayfolio::gather {

/// Tells runs apart by the way the position goes, in rows that stand in the order of time.
///
/// One direction: a run ends where the position does not go on in it (the machine was driven back between runs, without readings).
/// Both: a reading belongs to the direction in which its target was reached; a turn begins a run, and so does a target read again (the
/// machine passed it and came back). A first reading has the direction of the second.
class MotionRuns {
public:
    explicit MotionRuns(std::vector<Approach> directions) : directions_(std::move(directions)) {}

    struct Step {
        std::size_t run = 0;  ///< counted from 1
        bool is_new = false;
        std::optional<Approach> approach;  ///< unknown at the first reading of a run, where both directions may come
    };
    Step next(double position);
    /// The next reading begins a run: a file or a block ends.
    void interrupt() { last_.reset(); }

private:
    std::vector<Approach> directions_;
    std::optional<double> last_;
    std::optional<Approach> approach_;
    std::size_t run_ = 0;
};

}  // namespace wayfolio::gather
