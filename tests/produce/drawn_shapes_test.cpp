#include "produce/comparison.hpp"
#include "support/drawn_plot.hpp"
#include "support/pictures.hpp"
#include "support/small_documents.hpp"

#include <catch2/catch.hpp>

#include <set>

namespace wayfolio::testing {
using units::micrometre;
using enum document::Approach;

namespace {

/// Levels of a curve over the targets, in the order of its points.
std::vector<double> curve_levels(const ReadPlot& plot, const frame::Path& path) {
    std::vector<double> found;
    for (const frame::Point& point : points_of(path)) found.push_back(plot.deviation(point));
    return found;
}

void check_levels(const std::vector<double>& drawn, const std::vector<double>& wanted) {
    REQUIRE(drawn.size() == wanted.size());
    for (std::size_t i = 0; i < drawn.size(); ++i) CHECK(drawn[i] == Approx(wanted[i]).margin(hairline));
}

template <class Value>
std::vector<double> of_targets(const evaluate::SeriesEvaluation& series, const Value& value) {
    std::vector<double> all;
    for (const evaluate::TargetEvaluation& target : series.targets) all.push_back(value(target));
    return all;
}

std::vector<double> means_um(const evaluate::SeriesEvaluation& series, const std::optional<document::Approach>& approach) {
    return of_targets(series, [&](const auto& target) { return target.mean_of(approach).value().in(micrometre); });
}

/// The line that a straightness is drawn about.
const evaluate::ReferenceLineResult& line_of(const evaluate::SeriesEvaluation& series) {
    const auto kind = evaluate::find_parameter(series, "straightness")->reference_line;
    return *std::ranges::find_if(series.lines, [&](const auto& line) { return line.kind == kind; });
}

double about(const evaluate::ReferenceLineResult& line, double um, double metres) {
    return um - line.offset.in(micrometre) - line.slope.in(units::micrometre_per_metre)*metres;
}

/// The axis that rises in the drawing of a squareness, from its foot to its tip.
std::vector<frame::Point> second_axis(const frame::Group& figure, const layouts::Layout& layout) {
    for (const frame::Path& path : paths_in(figure.items)) {
        const auto ends = points_of(path);
        if (has_pen(path, pen_called(layout, "uncertainty_bar")) && ends[1].y < ends[0].y) return ends;
    }
    throw std::runtime_error("no axis rises");
}

/// A figure round the circle: its rings with their numbers give centre and scale.
struct ReadCircle {
    std::vector<std::pair<double, double>> rings;  ///< radius and number
    frame::Point centre{};

    explicit ReadCircle(const frame::Group& figure) {
        std::optional<double> radius;
        for (const frame::Item& item : group_of(figure.items, "rings").items) {
            if (const auto* path = std::get_if<frame::Path>(&item)) {
                if (path->steps.size() < 5) continue;  // a leader to the number
                const auto points = points_of(*path);
                centre = {(points[0].x + points[2].x) / 2, points[0].y};
                radius = x_of(points[0]) - x_of(centre);
            } else if (const auto* run = std::get_if<frame::GlyphRun>(&item)) {
                rings.emplace_back(radius.value(), printed_number(run->text).value());
            }
        }
        REQUIRE(rings.size() >= 2);
        CHECK(rings.front().first < rings.back().first);
    }
    /// Levels of a path's points at an angle.
    [[nodiscard]] std::vector<double> at(const frame::Path& path, double degrees) const {
        const ReadScale scale(rings.front().first, rings.front().second, rings.back().first, rings.back().second);
        std::vector<double> found;
        for (const frame::Point& point : points_of(path)) {
            const double x = x_of(point) - x_of(centre), y = y_of(centre) - y_of(point);
            const double aside = std::remainder(std::atan2(y, x) * 180 / units::pi - degrees, 360.0);
            if (std::abs(aside) < 1e-6) found.push_back(scale.at(std::hypot(x, y)));
        }
        return found;
    }
};

}  // namespace

TEST_CASE("the second axis leans away from the first where the angle between their positive directions is more than 90 degrees",
          "[pictures]") {
    int open = 0, closed = 0;
    for (const double along_y : {30.0, -30.0, 12.0, -12.0}) {
        const DrawnDocument drawn(small::squareness(along_y));
        const frame::Frame frame = drawn.figure("x-eyx", "squareness");
        // 90 degrees + opening; the drawing is 8 degrees off, to that side.
        const units::Angle opening = *drawn.evaluation.squareness.at(0).beyond_right_angle;
        const auto ends = second_axis(the_figure(frame), drawn.layout);
        CAPTURE(along_y, opening.in(units::microradian));
        const double lean = (ends[1].x - ends[0].x).in(units::point), up = (ends[0].y - ends[1].y).in(units::point);
        CHECK((opening > units::Angle() ? -1 : 1) * lean > 0);
        CHECK(std::atan2(std::abs(lean), up) * 180 / units::pi == Approx(8));
        CHECK(words_of(the_figure(frame).items).find(opening > units::Angle() ? "90°\u00a0+" : "90°\u00a0\u2212") !=
              std::string::npos);
        (opening > units::Angle() ? open : closed) += 1;
    }
    CHECK(open == 2);
    CHECK(closed == 2);
}

TEST_CASE("the opening of two axes follows from the slopes of their lines: no drawing leans by the evaluation's mistake",
          "[pictures]") {
    // Positive slopes of EYX turn +X towards +Y, those of EXY turn +Y towards +X: the angle between them is 90 degrees less both.
    const DrawnDocument drawn(small::squareness(30));
    const auto slope = [&](const char* id) { return line_of(drawn.series(id)).slope.in(units::microradian); };
    CHECK(drawn.evaluation.squareness.at(0).beyond_right_angle->in(units::microradian) ==
          Approx(-slope("x-eyx") - slope("y-exy")).margin(1e-6));
}

TEST_CASE("a mean stands at its angle and at the distance of its deviation, counter-clockwise and outwards", "[pictures]") {
    const DrawnDocument drawn(small::turn());
    const frame::Frame frame = drawn.figure("c", "polar");
    const ReadCircle circle(the_figure(frame));
    const auto paths = paths_in(the_figure(frame).items);
    for (const std::string side : {"positive", "negative"}) {
        const auto is_curve = [&](const frame::Path& path) { return has_pen(path, pen_called(drawn.layout, side + "_mean")); };
        const auto is_band = [&](const frame::Path& path) { return path.fill == colour_called(drawn.layout, side + "_tint"); };
        const auto curve = std::ranges::find_if(paths, is_curve), band = std::ranges::find_if(paths, is_band);
        REQUIRE(curve != paths.end());
        REQUIRE(band != paths.end());
        for (const evaluate::TargetEvaluation& target : drawn.series("c").targets) {
            const double degrees = target.position.in(units::position_degree);
            CAPTURE(side, degrees);
            const evaluate::OneWay& way = side == "positive" ? target.one_way.positive : target.one_way.negative;
            const double mean = way.mean->in(units::arcsecond), s = way.s->in(units::arcsecond);
            const auto means = circle.at(*curve, degrees), edges = circle.at(*band, degrees);
            REQUIRE_FALSE(means.empty());
            REQUIRE(edges.size() >= 2);
            for (const double level : means) CHECK(level == Approx(mean).margin(hairline));
            CHECK(*std::ranges::max_element(edges) == Approx(mean + 2 * s).margin(hairline));
            CHECK(*std::ranges::min_element(edges) == Approx(mean - 2 * s).margin(hairline));
        }
    }
}

TEST_CASE("straightness is drawn about its reference line, an angle about its mean, and the tool point over what was measured",
          "[pictures]") {
    const DrawnDocument bow(small::straightness());
    const frame::Frame bow_frame = bow.figure("x-eyx", "error");
    const ReadPlot bow_plot(the_figure(bow_frame));
    const auto& series = bow.series("x-eyx");
    const auto about_line = [&](const auto& target) {
        return about(line_of(series), target.one_way.positive.mean->in(micrometre), metres(target.position));
    };
    check_levels(curve_levels(bow_plot, bow_plot.paths("mean-positive").at(0)), of_targets(series, about_line));

    const DrawnDocument pitch(small::angle());
    const frame::Frame pitch_frame = pitch.figure("x-ebx", "error");
    const ReadPlot pitch_plot(the_figure(pitch_frame));
    double zero = 0;
    for (const auto& target : pitch.series("x-ebx").targets)
        zero += (target.one_way.positive.mean->in(units::microradian) + target.one_way.negative.mean->in(units::microradian)) / 10;
    check_levels(
        curve_levels(pitch_plot, pitch_plot.paths("mean-negative").at(0)),
        of_targets(pitch.series("x-ebx"), [&](const auto& target) { return target.one_way.negative.mean->in(units::microradian) - zero; }));

    const DrawnDocument point(small::tool_point());
    const frame::Frame point_frame = point.figure("x", "tool-point");
    const ReadPlot point_plot(the_figure(point_frame));
    std::vector<double> moved, measured;
    const auto& at = point.series("x").at_tool_point.value();
    double mean = 0;
    for (const auto& target : at.targets) mean += (*target.effect.positive + *target.effect.negative).in(micrometre) / 10;
    for (std::size_t i = 0; i < at.targets.size(); ++i) {
        measured.push_back(point.series("x").targets[i].one_way.positive.mean->in(micrometre));
        moved.push_back(measured.back() + at.targets[i].effect.positive.value().in(micrometre) - mean);
    }
    check_levels(curve_levels(point_plot, point_plot.paths("mean-positive").at(0)), moved);
    check_levels(curve_levels(point_plot, point_plot.paths("pale-means").at(1)), measured);
}

TEST_CASE("a record taken on the fly is drawn through its samples, about the same line", "[pictures]") {
    const DrawnDocument drawn(small::with_trace());
    const frame::Frame frame = drawn.figure("x-eyx", "error");
    const ReadPlot plot(the_figure(frame));
    const auto points = points_of(plot.paths("trace").at(0));
    const auto& samples = drawn.document.series[0].trace->samples;
    REQUIRE(points.size() == samples.size());
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double x = metres(samples[i].position);
        CHECK(plot.position(points[i]) == Approx(x).margin(hairline));
        CHECK(plot.deviation(points[i]) ==
              Approx(about(line_of(drawn.series("x-eyx")), samples[i].value.in(micrometre), x)).margin(hairline));
    }
}

TEST_CASE("as found stands under its title on the left, as left on the right, both to one scale", "[pictures]") {
    DrawnDocument drawn(small::found_and_left());
    const auto pages = drawn.pages("states");
    const frame::Group &found = group_of(pages.at(0).items, "x"), &left = group_of(pages.at(0).items, "x-left");
    const auto title_x = [&](const std::string& words) {
        for (const auto& run : runs_in(pages.at(0).items))
            if (run.text.starts_with(words) && run.origin.y < found.box->top) return x_of(run.origin);
        throw std::runtime_error("no title begins with " + words);
    };
    CHECK(title_x("As found") >= found.box->left.in(units::point) - hairline);
    CHECK(title_x("As found") < title_x("As left"));
    CHECK(title_x("As left") > found.box->right().in(units::point) - 20);
    CHECK(found.box->left < left.box->left);
    const ReadPlot plot(found);
    check_levels(curve_levels(plot, paths_in(group_of(found.items, "mean-positive").items).at(0)),
                 means_um(drawn.series("x"), Positive));
    check_levels(curve_levels(plot, paths_in(group_of(left.items, "mean-positive").items).at(0)),
                 means_um(drawn.series("x-left"), Positive));
    check_levels(curve_levels(plot, paths_in(group_of(left.items, "mean-negative").items).at(0)),
                 means_um(drawn.series("x-left"), Negative));
}

TEST_CASE("what changed is drawn on the scale of its pair, over U of the change, with a dot at its largest", "[pictures]") {
    nlohmann::json json = small::found_and_left();
    for (const char* series : {"x", "x-left"})
        json["uncertainty"]["stated"].push_back(
            {{"series", series}, {"parameter", "A"}, {"expanded", 0.3}, {"unit", "um"}, {"coverage_factor", 2}});
    DrawnDocument drawn(json);
    const auto pages = drawn.pages("states");
    const ReadPlot plot(group_of(pages.at(0).items, "x"));  // the strip has the same scale at another height
    const frame::Group& strip = group_of(pages.at(0).items, "difference-x-left");
    std::vector<double> changes;
    for (std::size_t i = 0; i < drawn.series("x").targets.size(); ++i)
        changes.push_back((*drawn.series("x-left").targets[i].mean - *drawn.series("x").targets[i].mean).in(micrometre));
    std::vector<frame::Point> curve;
    std::optional<frame::Rect> band;
    std::vector<frame::Rect> dots;
    for (const frame::Path& path : paths_in(strip.items)) {
        if (has_pen(path, pen_called(drawn.layout, "curve")) && path.steps.size() > 2) curve = points_of(path);
        if (path.fill == colour_called(drawn.layout, "value_bar")) band = frame::bounds(path);
        if (is_disc(path)) dots.push_back(*frame::bounds(path));
    }
    REQUIRE(curve.size() == changes.size());
    for (std::size_t i = 1; i < curve.size(); ++i)
        CHECK(plot.deviation(curve[i]) - plot.deviation(curve[0]) == Approx(changes[i] - changes[0]).margin(hairline));
    REQUIRE(band);
    const auto level = [&](frame::Paper y) { return plot.deviation({{}, y}); };
    const double U = 0.3 * std::sqrt(2.0);
    CHECK(level(band->top) - level(band->bottom()) == Approx(2 * U).margin(hairline));
    CHECK((level(band->top) + level(band->bottom())) / 2 - plot.deviation(curve[0]) == Approx(-changes[0]).margin(hairline));
    REQUIRE(dots.size() == 1);
    const auto largest = std::ranges::max_element(changes, {}, [](double change) { return std::abs(change); }) - changes.begin();
    CHECK((dots[0].left + dots[0].width / 2).in(units::point) ==
          Approx(x_of(curve[static_cast<std::size_t>(largest)])).margin(hairline));
}

TEST_CASE("what is predicted stands below the means as measured, which the steps of the table follow", "[pictures]") {
    DrawnDocument drawn(small::compensated("bidirectional"));
    const auto pages = drawn.pages("compensation");
    const frame::Group& figure = group_of(pages.at(0).items, "predicted-x");
    std::vector<const frame::Group*> means;
    frame::walk(figure.items, [&](const frame::Group& group) {
        if (group.id == "mean-positive") means.push_back(&group);
    });
    REQUIRE(means.size() == 2);  // as measured, and below it predicted
    const auto heights = [](const frame::Path& path) {
        std::vector<double> all;
        for (const frame::Point& point : points_of(path)) all.push_back(point.y.in(units::point));
        return all;
    };
    const auto measured = heights(paths_in(means[0]->items).at(0)), predicted = heights(paths_in(means[1]->items).at(0));
    const auto range = [](const std::vector<double>& values) { return std::ranges::max(values) - std::ranges::min(values); };
    // The plot of what remains lies below that of what was measured.
    CHECK(std::ranges::min(predicted) > std::ranges::max(measured));
    CHECK(range(predicted) < range(measured));
    std::size_t steps = 0;
    for (const frame::Path& path : paths_in(figure.items))
        if (has_pen(path, pen_called(drawn.layout, "trace"))) steps = std::max(steps, path.steps.size());
    CHECK(steps == 2 * drawn.evaluation.compensation.at(0).tables.at(0).points.size());
}

TEST_CASE("in a comparison the new means stand over the pale means of the old", "[pictures]") {
    nlohmann::json later = small::positioning();
    for (auto& run : later["series"][0]["runs"]) run["deviations"][2] = 7.5;
    const DrawnDocument was(small::positioning()), now(later);
    const auto pages = produce::comparison_pages(
        {was.document, now.document, was.evaluation, now.evaluation, now.layout, shaper(), {{"wayfolio", "test"}}});
    for (const frame::Frame& page : pages)
        for (const frame::Group* figure : figures_in(page.items)) {
            if (groups_where(figure->items, [](const frame::Group& group) { return group.id == "pale-means"; }).empty()) continue;
            const ReadPlot plot(*figure);
            check_levels(curve_levels(plot, plot.paths("mean-negative").at(0)), means_um(now.series("x"), Negative));
            const auto pale = plot.paths("pale-means");
            REQUIRE(pale.size() == 2);
            check_levels(curve_levels(plot, pale[0]), means_um(was.series("x"), Negative));
            return;
        }
    FAIL("no figure");
}

TEST_CASE("the small curve of M is the bidirectional mean, with dots on its lowest and highest point", "[pictures]") {
    DrawnDocument drawn(small::document(small::list(small::with_tolerances(small::x_series(), small::list(small::tolerance("M", 9))))));
    const auto pages = drawn.pages("answer");
    const double left = drawn.layout.grid().left.in(units::point) + 80, right = left + 100;
    std::vector<frame::Path> curves, dots;
    for (const frame::Path& path : paths_in(pages.at(0).items)) {
        const frame::Rect box = *frame::bounds(path);
        if (box.left.in(units::point) < left - 3 || box.right().in(units::point) > right + 3) continue;
        if (is_disc(path) && path.stroke->colour == colour_called(drawn.layout, "ink"))
            dots.push_back(path);
        else if (!is_disc(path) && has_pen(path, pen_called(drawn.layout, "curve")))
            curves.push_back(path);
    }
    REQUIRE(curves.size() == 1);
    REQUIRE(dots.size() == 2);
    const auto points = points_of(curves[0]);
    const auto wanted = means_um(drawn.series("x"), std::nullopt);
    const auto [low, high] = std::ranges::minmax_element(wanted);
    const auto at = [&](auto found) { return points.at(static_cast<std::size_t>(found - wanted.begin())); };
    const ReadScale scale(y_of(at(low)), *low, y_of(at(high)), *high);
    CHECK(at(low).y > at(high).y);
    for (std::size_t i = 0; i < points.size(); ++i) {
        CHECK(scale.at(y_of(points[i])) == Approx(wanted[i]).margin(hairline));
        CHECK((x_of(points[i]) - left) / (right - left) ==
              Approx(metres(drawn.series("x").targets[i].position) / 0.4).margin(hairline));
    }
    for (const auto& wanted_at : {at(low), at(high)})
        CHECK(std::ranges::any_of(dots, [&](const frame::Path& dot) { return points_of(dot)[0] == wanted_at; }));
}

}  // namespace wayfolio::testing
