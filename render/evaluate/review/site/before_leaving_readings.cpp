#include "evaluate/review/site/judged_series.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {
namespace {

void add_run_hints(const JudgedSeries& j, const SeriesHints& hints) {
    if (const auto* drift = value_of(hints.drift); drift && drift->raised)
        j.add(FindingCode::DriftOverRuns,
              fmt::format("the readings drift by {:+.3g} {} from the first run to the last", j.own(drift->change), j.unit()), j.series(),
              test_words("t test of the run means over time", drift->p, hints.level),
              "wait until machine and instrument are steady, then repeat the runs");
    if (const auto* growth = value_of(hints.growth); growth && growth->raised)
        j.add(FindingCode::GrowthOverRuns,
              fmt::format("the axis grows by {:+.3g} {}/m from the first run to the last", j.own(growth->change), j.unit()), j.series(),
              test_words("t test of the run slopes over time", growth->p, hints.level),
              "check warm-up and temperature record, then repeat the runs");
    if (const auto* apart = value_of(hints.apart); apart && apart->raised)
        j.add(FindingCode::RunApart, fmt::format("one run lies {:+.3g} {} apart from the others", j.own(apart->by), j.unit()),
              j.run(apart->run), test_words("t test against the other runs, for the farthest of them", apart->p, hints.level),
              "repeat that run; look for a knock or a new zero before it");
    if (const auto* jump = value_of(hints.jump); jump && jump->raised)
        j.add(FindingCode::RunsJump, fmt::format("from this run on all runs lie {:+.3g} {} off those before", j.own(jump->by), j.unit()),
              j.run(jump->run), test_words("t test of the best place of a step in the run means", jump->p, hints.level),
              "look for a knock, a new zero or a moved part between the runs; repeat the runs of the shorter side");
}

void add_reading_hints(const JudgedSeries& j, const SeriesHints& hints) {
    if (const auto* outlier = value_of(hints.outlier); outlier && outlier->raised) {
        const auto sure = test_words("pooled test of the farthest reading", outlier->p, outlier->level);
        const auto what = fmt::format("the reading at target {} is {:+.3g} {} off the mean of its runs", outlier->target + 1,
                                      j.own(outlier->by), j.unit());
        if (outlier->decimal_slip)
            j.add(FindingCode::DecimalSlip,
                  fmt::format("{}, and fits it with its decimal point moved by {} to the {}", what, std::abs(*outlier->decimal_slip),
                              *outlier->decimal_slip > 0 ? "left" : "right"),
                  j.run(outlier->run), sure, "compare with the instrument's own record; correct the document, not the readings");
        else
            j.add(FindingCode::PossibleOutlier, what, j.run(outlier->run), sure,
                  "repeat the run; if there was a cause, exclude the reading with it as the reason");
    }
    if (const auto* swapped = value_of(hints.swapped); swapped && swapped->raised)
        j.add(FindingCode::ReadingsSwapped,
              fmt::format("the readings at targets {} and {} fit when they are exchanged; the targets differ by {:+.3g} {}",
                          swapped->targets[0] + 1, swapped->targets[1] + 1, j.own(swapped->by), j.unit()),
              j.run(swapped->run), test_words("t test of the best pair to exchange", swapped->p, hints.level),
              "compare with the instrument's own record; correct the document, not the readings");
    if (const auto* missed = value_of(hints.missed_count); missed && missed->raised)
        j.add(FindingCode::MissedCount,
              fmt::format("from target {} on the readings lie {:+.3g} {} off{}: the instrument looks to have missed a count",
                          missed->target + 1, j.own(missed->by), j.unit(), missed->stays ? ", in all later runs too" : ""),
              j.run(missed->run), test_words("t test of the best place of a step", missed->p, hints.level),
              "check signal and alignment of the beam, then repeat the run" + std::string(missed->stays ? " and those after it" : ""));
}

/// More than this many times the straightness: an error of the instrument's scale of a few per cent then spoils the result.
constexpr double steep = 20;

/// Whether the slope of the series is itself the result, as it is where a squareness names the series.
bool slope_is_result(const document::Document& document, const std::string& series) {
    return std::any_of(document.squareness.begin(), document.squareness.end(),
                       [&](const auto& request) { return request.series[0] == series || request.series[1] == series; });
}

void add_beam_slope(const JudgedSeries& j, const document::Document& document) {
    if (slope_is_result(document, j.evaluated.id)) return;
    if (j.evaluated.kind != SeriesKind::Straightness || j.evaluated.targets.size() < 2) return;
    for (const auto& line : j.evaluated.lines) {
        if (line.kind != document::ReferenceLine::LeastSquares || j.evaluated.error.axis_is_rotary()) continue;
        const double metres =
            j.evaluated.targets.back().position.in(units::position_metre)-j.evaluated.targets.front().position.in(units::position_metre);
        const double slope = line.slope.in(units::micrometre_per_metre), rise = std::abs(slope * metres),
                     straightness = line.straightness.in(units::micrometre);
        if (rise <= steep * straightness) continue;
        j.add(FindingCode::ReferenceNotAlongAxis,
              fmt::format("the straightness reference is not along the axis: it rises by {:.0f} µm ({:+.0f} µm/m) for a "
                          "straightness of {:.1f} µm",
                          rise, slope, straightness),
              j.series(), fmt::format("more than {:.0f} times; common practice, no source", steep),
              "align the beam or straightedge again and repeat the runs");
    }
}

}  // namespace

void add_reading_concerns(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation) {
    for (std::size_t i = 0; i < evaluation.series.size() && i < document.series.size(); ++i) {
        const JudgedSeries judged{document.series[i], evaluation.series[i], i, lines};
        add_misread(judged);
        add_target_list(judged, document);
        add_beam_slope(judged, document);
        for (const SeriesHints& hints : evaluation.hints) {
            if (hints.series != judged.evaluated.id) continue;
            add_run_hints(judged, hints);
            add_reading_hints(judged, hints);
            add_axis_properties(judged, hints);
        }
    }
}

}  // namespace wayfolio::evaluate
