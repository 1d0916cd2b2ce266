#pragma once
#include "batch/job.hpp"
#include "batch/outcome.hpp"
#include "produce/produce.hpp"
#include "text/shaper.hpp"

#include <functional>

namespace wayfolio::batch {

/// Names of the files that are wanted of a job.
std::vector<std::string> files_of(const Job& job);

/// Draws what is wanted of a job, and hands on each file when it is whole. @throws as produce::report_pdf, and what `put` throws
void draw_files(const Job& job, const produce::Drawing& drawing, Outcome& outcome,
                const std::function<void(const std::string& name, const std::string& bytes)>& put);

/// What becomes of a job, whatever goes wrong while `draw` does it. @throws what is a fault of this program
Outcome outcome_of(const std::string& name, const std::function<Outcome()>& draw);

/// Does one job, or finds that it is done: whatever goes wrong is told in its outcome.
struct Doing {
    const text::Shaper& shaper;
    std::filesystem::path into;       ///< an existing folder, in which nothing is left over of files_of() it
    const Outcome* before = nullptr;  ///< what became of the job the last time
    bool only_plan = false;           ///< nothing is drawn
};

struct Did {
    Outcome outcome;
    std::string why;  ///< it was or would be drawn: "new", "another document" ...; "" where all of it was there
};

Did do_job(const Job& job, const Doing& doing);

}  // namespace wayfolio::batch
