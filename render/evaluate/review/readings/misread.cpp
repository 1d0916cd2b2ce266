#include "evaluate/review/readings/misread.hpp"

#include <algorithm>

namespace wayfolio::evaluate {
namespace {

void leave_out(MisreadRuns& misread, std::size_t run) {
    misread.left_out.push_back(run);
    std::erase_if(misread.rest, [&](const auto& each) { return each.run == run; });
}

}  // namespace

MisreadRuns misread_runs(const document::Series& series, const SeriesEvaluation& evaluated) {
    MisreadRuns misread;
    misread.rest = run_residuals(series, evaluated);
    misread.repeats = find_repeats(series, misread.rest);
    for (const auto& repeated : misread.repeats)
        if (repeated.kind == RepeatedReadings::Kind::Sensor) leave_out(misread, *repeated.run);
    misread.gross = find_gross_errors(misread.rest, evaluated.unit.dimension);
    for (const auto& error : misread.gross)
        if (error.run) leave_out(misread, *error.run);
    if (!misread.left_out.empty()) centre(misread.rest);
    std::sort(misread.left_out.begin(), misread.left_out.end());
    return misread;
}

}  // namespace wayfolio::evaluate
