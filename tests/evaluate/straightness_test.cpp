#include "evaluate/series/straightness.hpp"
#include "evaluate/series/angles.hpp"
#include "evaluate/evaluation.hpp"
#include "support/documents.hpp"

#include <rapidcheck.h>
#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::evaluate;
using document::ReferenceLine;

namespace {

double value(const SeriesEvaluation& evaluation, std::string_view name, const DeviationUnit& unit = units::micrometre) {
    return value_of(find_parameter(evaluation, name)->value)->in(unit);
}

std::string reason(const SeriesEvaluation& evaluation, std::string_view name) {
    return std::get<NotEvaluated>(find_parameter(evaluation, name)->value).reason;
}

SeriesEvaluation evaluated(const document::Series& series, ReferenceLine line = ReferenceLine::LeastSquares) {
    auto document = support::document(series);
    document.evaluation.straightness_reference = line;
    return evaluate_straightness(document, series);
}

/// Stations from 0 on; the first has no reading.
document::Series steps(std::vector<double> readings_arcsec, double base_mm) {
    readings_arcsec.insert(readings_arcsec.begin(), support::missing);
    std::vector<double> stations;
    for (std::size_t i = 0; i < readings_arcsec.size(); ++i) stations.push_back(base_mm * static_cast<double>(i));
    auto series = support::series("EZX", stations, {readings_arcsec}, {}, units::arcsecond);
    series.steps_base_mm = base_mm;
    return series;
}

struct MoodyLine {
    const char* name;
    std::vector<double> arcsec;
    double end_point, least_squares, minimum_zone;   ///< straightness, um
    double slope_least_squares, slope_minimum_zone;  ///< um/m
};

// Angles: J. C. Moody, "How to calibrate surface plates in the plant", The Tool Engineer, October 1955, with the corrections
// published by B. Allen in 2019; foot spacing 4 in = 101.6 mm. End-point values follow the article's profile, the others were
// recomputed independently.
const std::vector<MoodyLine> moody_lines{
    {"NW_SE",
     {6.5, 6.0, 5.0, 5.2, 5.5, 5.6, 5.5, 5.0, 5.5, 4.8, 5.0, 5.2, 5.3, 4.9, 4.6, 4.2, 5.3, 4.9, 4.5, 3.5},
     1.921026,
     1.961839,
     1.921026,
     24.76201617,
     24.725497737},
    {"NE_SW",
     {6.6, 5.4, 5.4, 5.2, 5.5, 5.7, 5.0, 5.0, 5.4, 4.5, 4.4, 4.5, 4.5, 4.8, 4.2, 4.2, 4.2, 4.8, 4.3, 3.2},
     2.778099,
     2.880003,
     2.778099,
     23.353537982,
     23.464982166},
    {"NE_NW",
     {20.5, 19.7, 20.5, 20.3, 20.2, 19.9, 19.0, 19.5, 18.8, 18.6, 18.7, 18.6, 18.4, 18.5, 19.0, 17.9},
     2.739925,
     2.840491,
     2.739925,
     93.225630763,
     93.356934469},
    {"NW_SW", {6.0, 4.6, 4.5, 4.7, 5.0, 4.5, 5.9, 6.0, 6.0, 4.9}, 1.354569, 1.213515, 1.206798, 24.981126768, 24.967904577},
    {"N_S", {6.6, 6.4, 6.3, 6.5, 6.6, 6.9, 7.5, 7.4, 7.1, 7.0}, 0.861999, 0.886627, 0.861999, 33.161255788, 33.11277442}};

}  // namespace

TEST_CASE("angle steps of Moody's plate give his lines about all three reference lines") {
    for (const MoodyLine& line : moody_lines) {
        CAPTURE(line.name);
        const SeriesEvaluation evaluation = evaluated(steps(line.arcsec, 101.6));
        REQUIRE(evaluation.lines.size() == 3);
        CHECK(evaluation.targets.size() == line.arcsec.size() + 1);
        CHECK(evaluation.lines[0].straightness.in(units::micrometre) == Approx(line.end_point).margin(6e-7));
        CHECK(evaluation.lines[1].straightness.in(units::micrometre) == Approx(line.least_squares).margin(6e-7));
        CHECK(evaluation.lines[2].straightness.in(units::micrometre) == Approx(line.minimum_zone).margin(6e-7));
        CHECK(evaluation.lines[1].slope.in(units::micrometre_per_metre) == Approx(line.slope_least_squares).margin(6e-10));
        CHECK(evaluation.lines[2].slope.in(units::micrometre_per_metre) == Approx(line.slope_minimum_zone).margin(6e-10));
        CHECK(value(evaluation, "straightness") == evaluation.lines[1].straightness.in(units::micrometre));
    }
}

TEST_CASE("stations in falling order give the same heights: the angle is the surface's") {
    const MoodyLine& line = moody_lines[3];
    auto series = steps(line.arcsec, 101.6);
    const SeriesEvaluation rising = evaluated(series);
    CHECK(rising.targets.back().mean->in(units::micrometre) == Approx(25.66293347).margin(1e-7));  // the article's profile
    CHECK(rising.missing.empty());
    std::reverse(series.targets.begin(), series.targets.end());
    auto& readings = series.runs[0].deviations;
    std::reverse(readings.begin() + 1, readings.end());
    const SeriesEvaluation falling = evaluated(series);
    CHECK(falling.targets.back().mean->in(units::micrometre) == Approx(25.66293347).margin(1e-7));
    CHECK(falling.targets.back().index == 0);
    CHECK(value(falling, "straightness") == Approx(value(rising, "straightness")).epsilon(1e-12));
}

TEST_CASE("seven heights of an autocollimator with the exact arc second give 2.908882 um") {
    // Textbook example: means 130 130 133 137 128 130 134", less the first; 0.5 um per arc second there, 0.484814 exactly.
    auto series = steps({0, 3, 7, -2, 0, 4}, 100);
    const SeriesEvaluation evaluation = evaluated(series, ReferenceLine::EndPoint);
    CHECK(value(evaluation, "straightness") == Approx(2.908882).margin(5e-7));
}

TEST_CASE("steps read both ways keep their mean as the headline, with either profile and what they fail to close by beside it") {
    // 1 urad over 100 mm is 0.1 µm. Positive 10 20 30, negative 12 20 34 urad: heights 0 1 3 6 and 0 1.2 3.2 6.6, mean 0 1.1 3.1 6.3.
    const double none = support::missing;
    auto series = support::series("EZX", {0, 100, 200, 300}, {{none, 10, 20, 30}}, {{none, 12, 20, 34}}, units::microradian);
    series.steps_base_mm = 100;
    const SeriesEvaluation evaluation = evaluated(series, ReferenceLine::EndPoint);
    const std::vector<double> positive{0, 1, 3, 6}, negative{0, 1.2, 3.2, 6.6}, mean{0, 1.1, 3.1, 6.3};
    REQUIRE(evaluation.targets.size() == 4);
    for (std::size_t i = 0; i < 4; ++i) {
        const TargetEvaluation& target = evaluation.targets[i];
        CHECK(target.one_way.positive.mean->in(units::micrometre) == Approx(positive[i]));
        CHECK(target.one_way.negative.mean->in(units::micrometre) == Approx(negative[i]));
        CHECK(target.mean->in(units::micrometre) == Approx(mean[i]));
    }
    CHECK(evaluation.closing_error->in(units::micrometre) == Approx(-0.6));
    // About the mean's end-point line (2.1 µm a step): mean 0 -1 -1.1 0; positive 0 -1.1 -1.2 -0.3; negative 0 -0.9 -1 0.3.
    CHECK(value(evaluation, "straightness") == Approx(1.1));
    CHECK(value(evaluation, "straightness_mean") == Approx(1.1));
    CHECK(value(evaluation, "straightness_positive") == Approx(1.2));
    CHECK(value(evaluation, "straightness_negative") == Approx(1.3));
    // The minimum zone is that of the mean heights, whatever the single profiles do.
    CHECK(evaluation.lines[2].straightness <= evaluation.lines[1].straightness);
    series.runs.pop_back();
    const SeriesEvaluation one_way = evaluated(series, ReferenceLine::EndPoint);
    CHECK_FALSE(one_way.closing_error);
    CHECK(value(one_way, "straightness_positive") == value(one_way, "straightness"));
    CHECK(reason(one_way, "straightness_negative") == "no readings in the negative approach");
}

TEST_CASE("a base that is not the step, or a missing step, is refused with the reason") {
    auto series = steps({1, 2, 3}, 100);
    series.steps_base_mm = 90;
    CHECK(reason(evaluated(series), "straightness").find("base") != std::string::npos);
    series.steps_base_mm = 100;
    series.runs[0].deviations[2].reset();
    CHECK(reason(evaluated(series), "slope").find("200 mm") != std::string::npos);
}

TEST_CASE("one line serves both directions, so that a reversal shows in straightness") {
    const auto series = support::series("EYX", {0, 100, 200, 300}, {{1, 3, 2, 1}}, {{-1, 1, 0, -1}});
    const SeriesEvaluation evaluation = evaluated(series, ReferenceLine::EndPoint);
    CHECK(value(evaluation, "straightness") == Approx(4));  // means about 0: +3 .. -1
    CHECK(value(evaluation, "straightness_mean") == Approx(2));
    CHECK(value(evaluation, "straightness_positive") == Approx(2));
    CHECK(value(evaluation, "straightness_negative") == Approx(2));
    CHECK(value(evaluation, "B") == Approx(2));
    CHECK(value(evaluation, "B_mean") == Approx(2));
    const auto& set_by = find_parameter(evaluation, "straightness")->set_by;
    CHECK((set_by[0].position - Position(100, units::position_millimetre)).in(units::micrometre) == 0);
    CHECK(set_by[0].level.in(units::micrometre) == Approx(3));
    CHECK(set_by[0].approach == Approach::Positive);
    CHECK(set_by[1].approach == Approach::Negative);
    CHECK(find_parameter(evaluation, "straightness")->reference_line == ReferenceLine::EndPoint);
}

namespace {

/// Range of every mean of both directions about a line of this slope.
double range_about(const SeriesEvaluation& evaluation, double slope_um_per_m) {
    double low = 1e9, high = -1e9;
    for (const TargetEvaluation& target : evaluation.targets)
        for (const auto& way : {target.one_way.positive, target.one_way.negative})
            if (way.mean) {
                const double level = way.mean->in(units::micrometre) - slope_um_per_m * target.position.in(units::position_metre);
                low = std::min(low, level);
                high = std::max(high, level);
            }
    return high - low;
}

/// Second way to the least range: it stands at a slope of a line through two of the means, and all of them are tried.
double least_range_of_all_pairs(const SeriesEvaluation& evaluation) {
    std::vector<std::pair<double, double>> points;
    for (const TargetEvaluation& target : evaluation.targets)
        for (const auto& way : {target.one_way.positive, target.one_way.negative})
            if (way.mean) points.emplace_back(target.position.in(units::position_metre), way.mean->in(units::micrometre));
    double least = 1e9;
    for (const auto& [x1, y1] : points)
        for (const auto& [x2, y2] : points)
            if (x2 > x1) least = std::min(least, range_about(evaluation, (y2 - y1) / (x2 - x1)));
    return least;
}

}  // namespace

TEST_CASE("the minimum zone is that of all means of both directions, and its slope the one of squareness") {
    // Two bows, the negative one 10 um lower at the far end: the zone of the means of both is not that of all of them.
    const auto series = support::series("EYX", {0, 250, 500, 750, 1000}, {{0, 6, 8, 6, 0}}, {{0, 3, 4, 3, -10}});
    const SeriesEvaluation zone = evaluated(series, ReferenceLine::MinimumZone), squares = evaluated(series);
    CHECK(value(zone, "straightness") <= value(squares, "straightness"));
    CHECK(value(zone, "straightness") == Approx(least_range_of_all_pairs(zone)).epsilon(1e-13));
    CHECK(value(zone, "straightness") == Approx(13.5));  // by hand: 0 at 0 and -10 at 1 000 mm; over them 6 at 750 mm
    CHECK(value(zone, "slope", units::micrometre_per_metre) == Approx(-10));
}

TEST_CASE("where a reversal at one place alone sets the zone, its slope is the nearest to least squares") {
    const auto series = support::series("EYX", {0, 500, 1000}, {{0, 9, 2}}, {{0, -9, 2}});
    const SeriesEvaluation zone = evaluated(series, ReferenceLine::MinimumZone);
    CHECK(value(zone, "straightness") == Approx(18));
    CHECK(value(zone, "slope", units::micrometre_per_metre) ==
          Approx(value(evaluated(series), "slope", units::micrometre_per_metre)).epsilon(1e-13));
}

TEST_CASE("no other line gives less straightness than the minimum zone, whatever reversal and gaps") {
    CHECK(rc::check([] {
        std::vector<double> mm{0};
        support::Rows up(1), down(1);
        for (int i = *rc::gen::inRange(3, 25); i > 0; --i) {
            const auto mean = [] { return *rc::gen::inRange(0, 8) == 0 ? support::missing : *rc::gen::inRange(-300, 300) / 10.0; };
            up[0].push_back(mean());
            down[0].push_back(mean());
            mm.push_back(mm.back() + *rc::gen::inRange(1, 400));
        }
        mm.pop_back();
        const SeriesEvaluation evaluation = evaluated(support::series("EYX", mm, up, down), ReferenceLine::MinimumZone);
        RC_PRE(evaluation.lines.size() == 3u);
        const double least = evaluation.lines[2].straightness.in(units::micrometre), rounding = 1e-11 * (1 + least);
        if (!evaluation.lines[2].one_way)
            RC_ASSERT(std::abs(least - value(evaluation, "straightness")) <= rounding);
        RC_ASSERT(std::abs(least - least_range_of_all_pairs(evaluation)) <= rounding);
        for (const auto& line : evaluation.lines) RC_ASSERT(least <= line.straightness.in(units::micrometre) + rounding);
        for (int i = 0; i < 20; ++i) RC_ASSERT(least <= range_about(evaluation, *rc::gen::inRange(-5000, 5000) / 7.0) + rounding);
    }));
}

TEST_CASE("slope and offset run along rising position, whatever the order and unit of the targets") {
    const auto rising = evaluated(support::series("EYX", {100, 600, 1100}, {{2, 3, 4}}, {{2, 3, 4}}));
    const auto falling = evaluated(support::series("EYX", {1100, 600, 100}, {{4, 3, 2}}, {{4, 3, 2}}));
    for (const auto& evaluation : {rising, falling}) {
        CHECK(value(evaluation, "slope", units::micrometre_per_metre) == Approx(2));
        CHECK(evaluation.lines[0].offset.in(units::micrometre) == Approx(1.8));
    }
}

TEST_CASE("units do not change straightness") {
    const std::vector<double> um{0, 4.1, 5.3, 2.2, -1.7}, mm{0, 254, 508, 762, 1016};
    std::vector<double> microinch, inch;
    for (const double v : um) microinch.push_back(v / 0.0254);
    for (const double v : mm) inch.push_back(v / 25.4);
    const auto metric = evaluated(support::series("EZX", mm, {um}, {um}), ReferenceLine::MinimumZone);
    const auto imperial =
        evaluated(support::series("EZX", inch, {microinch}, {microinch}, units::microinch, units::position_inch),
                  ReferenceLine::MinimumZone);
    for (const char* name : {"straightness", "straightness_mean"})
        CHECK(value(imperial, name) == Approx(value(metric, name)).epsilon(1e-12));
    CHECK(value(imperial, "slope", units::micrometre_per_metre) ==
          Approx(value(metric, "slope", units::micrometre_per_metre)).epsilon(1e-11));
    REQUIRE(metric.local.size() == imperial.local.size());
    CHECK(imperial.local[0].value.in(units::micrometre) == Approx(metric.local[0].value.in(units::micrometre)).epsilon(1e-11));
}

TEST_CASE("one direction has its own line, and straightness of both is not evaluated") {
    const auto evaluation = evaluated(support::series("EYX", {0, 100, 200}, {{0, 2, 0}}, {}));
    CHECK(value(evaluation, "straightness_positive") == Approx(2));
    CHECK(reason(evaluation, "straightness") == "readings in the positive approach only");
    CHECK(evaluation.lines.at(0).one_way == Approach::Positive);
    CHECK(value(evaluation, "slope", units::micrometre_per_metre) == Approx(0).margin(1e-12));
}

TEST_CASE("two targets have a slope and no straightness, a rotary axis neither") {
    const auto two = evaluated(support::series("EYX", {0, 1000}, {{0, 5}}, {{0, 5}}));
    CHECK(value(two, "slope", units::micrometre_per_metre) == Approx(5));
    CHECK_FALSE(reason(two, "straightness").empty());
    const auto rotary = evaluated(
        support::series("EZC", {0, 90, 180, 270}, {{0, 5, 1, 0}}, {{0, 5, 1, 0}}, units::micrometre, units::position_degree));
    CHECK(reason(rotary, "straightness").find("rotary") != std::string::npos);
    CHECK(value(rotary, "B") == 0);
}

TEST_CASE("local lengths are 300 mm, 1 000 mm from 2 m on, what the document asks for, and what tolerances name") {
    auto series = support::series("EYX", {0, 2500}, {{0, 5}}, {});
    auto document = support::document(series);
    CHECK(local_lengths(document, series, 1999) == std::vector<double>{300});
    CHECK(local_lengths(document, series, 2000) == std::vector<double>{300, 1000});
    series.tolerances.push_back({"local", "specification", units::micrometre(5), units::micrometre, 500});
    document.evaluation.local_straightness_mm = std::vector<double>{250};
    CHECK(local_lengths(document, series, 2500) == std::vector<double>{250, 500});
}

TEST_CASE("an angle is the range of the means over both directions, single readings stay out") {
    const auto series = support::series("EBX", {0, 100, 200}, {{0, 2, 4}, {0, 2, 6}}, {{-1, 2, 2}}, units::arcsecond);
    const auto evaluation = evaluate_angle(support::document(series), series);
    const DeviationUnit arcsec = units::arcsecond;
    CHECK(value(evaluation, "angle", arcsec) == Approx(6));  // 5 .. -1
    CHECK(value(evaluation, "angle_positive", arcsec) == Approx(5));
    CHECK(value(evaluation, "angle_negative", arcsec) == Approx(3));
    CHECK(value(evaluation, "B", arcsec) == Approx(3));
    CHECK(value(evaluation, "B_mean", arcsec) == Approx(4.0 / 3));
    CHECK(find_parameter(evaluation, "angle")->set_by[1].approach == Approach::Negative);
}

TEST_CASE("an offset leaves an angle alone and turned data turn the reversal only") {
    CHECK(rc::check([] {
        const auto positive = *rc::gen::container<std::vector<int>>(6, rc::gen::inRange(-500, 500));
        const auto negative = *rc::gen::container<std::vector<int>>(6, rc::gen::inRange(-500, 500));
        const int offset = *rc::gen::inRange(-1000, 1000), sign = *rc::gen::element(-1, 1);
        const auto angles = [&](int turn, int add) {
            support::Rows rows(2, std::vector<double>(6));
            for (std::size_t i = 0; i < 6; ++i) {
                rows[0][i] = turn * positive[i] + add;
                rows[1][i] = turn * negative[i] + add;
            }
            const auto series = support::series("ECX", {0, 1, 2, 3, 4, 5}, {rows[0]}, {rows[1]}, units::microradian);
            return evaluate_angle(support::document(series), series);
        };
        const auto plain = angles(1, 0), moved = angles(sign, offset);
        const DeviationUnit unit = units::microradian;
        RC_ASSERT(value(plain, "angle", unit) == value(moved, "angle", unit));
        RC_ASSERT(value(plain, "B", unit) == value(moved, "B", unit));
        RC_ASSERT(value(moved, "B_mean", unit) == sign * value(plain, "B_mean", unit));
    }));
}
