#pragma once
#include "batch/job.hpp"
#include "batch/outcome.hpp"
#include "text/shaper.hpp"

namespace wayfolio::batch {

/// Does one job, or finds that it is done: whatever goes wrong is told in its outcome.
struct Doing {
    const text::Shaper& shaper;
    std::filesystem::path into;       ///< an existing folder
    const Outcome* before = nullptr;  ///< what became of the job the last time
    bool only_plan = false;           ///< nothing is drawn
};

struct Did {
    Outcome outcome;
    std::string why;  ///< it was or would be drawn: "new", "another document" ...; "" where all of it was there
};

Did do_job(const Job& job, const Doing& doing);

}  // namespace wayfolio::batch
