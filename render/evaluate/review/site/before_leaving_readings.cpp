#include "evaluate/review/gross_errors.hpp"
#include "evaluate/review/hints.hpp"
#include "evaluate/review/site/before_leaving.hpp"
#include "evaluate/series/targets.hpp"

#include <fmt/format.h>
#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {
namespace {

/// One series under judgement, with the words its lines need.
struct JudgedSeries {
    const document::Series& source;
    const SeriesEvaluation& evaluated;
    std::size_t place;
    std::vector<BeforeLeaving>& lines;

    [[nodiscard]] std::string unit() const { return std::string(evaluated.unit.symbol); }
    /// A value of the hints (µm or µrad) in the series' own unit.
    [[nodiscard]] double own(double base) const { return Deviation(base, base_unit(evaluated.unit.dimension)).in(evaluated.unit); }
    [[nodiscard]] std::string series() const { return fmt::format("series {} (/series/{})", evaluated.id, place); }
    [[nodiscard]] std::string run(std::size_t run) const { return run_place(source, place, run); }
    void add(FindingCode code, std::string what, std::string where, std::string how_sure, std::string act) const {
        lines.push_back({code, std::move(what), std::move(where), std::move(how_sure), std::move(act)});
    }
};

std::string test(const char* statistic, double p, double level) { return fmt::format("{}: p = {:.1e}, level {:.1e}", statistic, p, level); }

void add_run_hints(const JudgedSeries& j, const SeriesHints& hints) {
    if (const auto* drift = value_of(hints.drift); drift && drift->raised)
        j.add(FindingCode::DriftOverRuns,
              fmt::format("the readings drift by {:+.3g} {} from the first run to the last", j.own(drift->change), j.unit()), j.series(),
              test("t test of the run means over time", drift->p, hints.level),
              "wait until machine and instrument are steady, then repeat the runs");
    if (const auto* growth = value_of(hints.growth); growth && growth->raised)
        j.add(FindingCode::GrowthOverRuns,
              fmt::format("the axis grows by {:+.3g} {}/m from the first run to the last", j.own(growth->change), j.unit()), j.series(),
              test("t test of the run slopes over time", growth->p, hints.level),
              "check warm-up and temperature record, then repeat the runs");
    if (const auto* apart = value_of(hints.apart); apart && apart->raised)
        j.add(FindingCode::RunApart, fmt::format("one run lies {:+.3g} {} apart from the others", j.own(apart->by), j.unit()),
              j.run(apart->run), test("t test against the other runs, for the farthest of them", apart->p, hints.level),
              "repeat that run; look for a knock or a new zero before it");
    if (const auto* outlier = value_of(hints.outlier); outlier && outlier->raised)
        j.add(FindingCode::PossibleOutlier,
              fmt::format("the reading at target {} is {:+.3g} {} off the mean of its runs", outlier->target + 1, j.own(outlier->by),
                          j.unit()),
              j.run(outlier->run), test("pooled test of the farthest reading", outlier->p, hints.level),
              "repeat the run; if there was a cause, exclude the reading with it as the reason");
    if (const auto* closure = value_of(hints.closure); closure && closure->raised)
        j.add(FindingCode::ReversalChangesAlongAxis,
              fmt::format("the reversal error changes along the axis: it differs by {:+.3g} {} between the ends of the travel",
                          j.own(closure->difference), j.unit()),
              j.series(), test("t test", closure->p, hints.level),
              "return to the first target and read again (same value: the axis; other value: the set-up moved)");
    if (const auto* periodic = value_of(hints.periodic); periodic && periodic->raised)
        j.add(FindingCode::PeriodicError,
              fmt::format("a periodic error of about {:.3g} {} shows, period {:.4g} {}", j.own(periodic->amplitude), j.unit(),
                          periodic->period, j.evaluated.error.axis_is_rotary() ? "deg" : "mm"),
              j.series(), test("spectrum, bound of the band", periodic->p, hints.level),
              "measure a short stretch with dense targets before the instrument comes off");
}

void add_gross_errors(const JudgedSeries& j) {
    for (const GrossError& found : find_gross_errors(run_residuals(j.source, j.evaluated))) {
        const std::string where =
            found.run ? j.run(*found.run) : fmt::format("series {}, all runs negative (/series/{}/runs)", j.evaluated.id, j.place);
        const char* act = "compare with the instrument's own record; correct the document, not the readings";
        const std::string sure = fmt::format("F test of the shape: p = {:.1e}, level {:.1e}", found.p,
                                             found.cause == GrossError::Cause::Direction ? misplaced_level : gross_error_level);
        switch (found.cause) {
            case GrossError::Cause::Sign:
                j.add(FindingCode::SignTurned,
                      fmt::format("the sign looks turned: the shape is {:.2f} times that of the other runs", found.factor), where, sure,
                      act);
                break;
            case GrossError::Cause::Unit:
                j.add(
                    FindingCode::UnitMixedUp,
                    fmt::format("the unit looks mixed up ({}): the shape is {:.3g} times that of the other runs", found.unit, found.factor),
                    where, sure, act);
                break;
            case GrossError::Cause::Order:
                j.add(FindingCode::OrderReversed, "the readings look written in reverse order of the targets", where, sure, act);
                break;
            case GrossError::Cause::Direction:
                j.add(FindingCode::ApproachMixedUp, "the run lies on those of the other approach: the approach looks mixed up", where, sure,
                      act);
                break;
        }
    }
}

/// Reversals of both signs, each beyond the scatter.
void add_reversal_sign(const JudgedSeries& j, const SeriesHints& hints) {
    const auto spread = pooled_spread(j.evaluated);
    if (!spread || value_of(hints.closure) == nullptr) return;
    const TargetEvaluation *low = nullptr, *high = nullptr;
    double targets = 0;
    for (const auto& target : j.evaluated.targets) {
        if (!target.reversal) continue;
        targets += 1;
        if (!low || *target.reversal < *low->reversal) low = &target;
        if (!high || *target.reversal > *high->reversal) high = &target;
    }
    if (!low) return;
    const auto p = [&](const TargetEvaluation& target) {
        const double standard = spread->s * std::sqrt(1.0 / static_cast<double>(target.one_way.positive.n) +
                                                      1.0 / static_cast<double>(target.one_way.negative.n));
        const double t = std::abs(target.reversal->in(base_unit(target.reversal->dimension()))) / standard;
        return std::min(1.0, 2 * targets * boost::math::cdf(boost::math::complement(boost::math::students_t(spread->nu), t)));
    };
    const Deviation none = *low->reversal * 0.0;
    if (!(*low->reversal<none&& * high->reversal> none)) return;
    const double larger = std::max(p(*low), p(*high));
    if (larger >= hints.level) return;
    j.add(FindingCode::ReversalChangesSign,
          fmt::format("the reversal changes its sign along the axis, from {:+.3g} to {:+.3g} {}", low->reversal->in(j.evaluated.unit),
                      high->reversal->in(j.evaluated.unit), j.unit()),
          j.series(), test("t test at both targets", larger, hints.level),
          "look for a wrong approach in some runs, or a drive that winds up; repeat one cycle");
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
        add_gross_errors(judged);
        add_beam_slope(judged, document);
        for (const SeriesHints& hints : evaluation.hints) {
            if (hints.series != judged.evaluated.id) continue;
            add_run_hints(judged, hints);
            add_reversal_sign(judged, hints);
        }
    }
}

}  // namespace wayfolio::evaluate
