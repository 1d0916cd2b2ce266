#pragma once
#include "report/model/record_plot.hpp"
#include "report/words/record_time.hpp"

namespace wayfolio::report {

/// Every span of time in which something was read in one direction, once, in order of time. Series read in the same runs share their lanes.
std::vector<RunLane> run_lanes(const document::Document& document, const RecordClock& clock);

/// Series that were read over the same time, named by their state, by their errors, or by both: whatever tells them apart.
std::vector<Session> sessions(const document::Document& document, const RecordClock& clock);

}  // namespace wayfolio::report
