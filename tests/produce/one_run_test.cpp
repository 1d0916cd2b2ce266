#include "support/drawn_plot.hpp"
#include "support/pictures.hpp"
#include "support/small_documents.hpp"

#include <catch2/catch.hpp>

namespace wayfolio::testing {
namespace {

/// One run each way over `targets` places; the negative one lacks its third reading.
small::Json one_run_each_way(std::size_t targets) {
    small::Json places = small::Json::array();
    std::vector<small::Json> up, down;
    for (std::size_t i = 0; i < targets; ++i) {
        places.push_back(100.0 * static_cast<double>(i));
        up.emplace_back(0.5 * static_cast<double>(i));
        down.emplace_back(0.5 * static_cast<double>(i) + (i % 2 == 0 ? 2.0 : 3.1));
    }
    down[2] = nullptr;
    small::Json series = small::x_series();
    series["targets"] = places;
    series["runs"] = small::runs_each_way({up}, {down});
    return small::document(small::list(small::with_tolerances(series, small::list(small::tolerance("E", 20)))));
}

/// Deviation against paper, of the numbers over the plot.
struct ScaleRead {
    double at_zero, of_ten;
    explicit ScaleRead(const frame::Group& figure) {
        const auto middle = [&](const std::string& words) {
            const frame::GlyphRun run = run_saying(figure.items, words);
            return (run.origin.x + run.advance / 2).in(units::point);
        };
        at_zero = middle("0");
        of_ten = middle("10") - at_zero;
    }
    [[nodiscard]] double at(double micrometre) const { return at_zero + micrometre * of_ten / 10; }
};

std::vector<frame::Point> corners_of(const frame::Group& figure, const layouts::Pen& pen) {
    std::vector<frame::Point> all;
    for (const frame::Path& path : paths_in(figure.items))
        if (has_pen(path, pen)) std::ranges::copy(points_of(path), std::back_inserter(all));
    return all;
}

}  // namespace

TEST_CASE("one run each way is drawn on the rows of its readings, to the scale above them", "[pictures]") {
    DrawnDocument drawn(one_run_each_way(9));
    const auto pages = drawn.pages("readings");
    REQUIRE(pages.size() == 1);
    const frame::Group& figure = group_of(pages[0].items, "one-run-x");
    const ScaleRead scale(figure);
    const auto up = corners_of(figure, pen_called(drawn.layout, "positive_mean"));
    REQUIRE(up.size() == 9);
    for (std::size_t i = 0; i < up.size(); ++i) CHECK(x_of(up[i]) == Approx(scale.at(0.5 * static_cast<double>(i))).margin(1e-3));
    for (std::size_t i = 1; i < up.size(); ++i) {
        // Level with the number of its target, which stands half a figure below.
        const frame::GlyphRun place = run_saying(pages[0].items, std::to_string(100 * i));
        CHECK(y_of(up[i]) == Approx(y_of(place.origin) - 2.7).margin(hairline));
    }
    // The missing reading breaks the other line.
    CHECK(corners_of(figure, pen_called(drawn.layout, "negative_mean")).size() == 8);
    std::size_t lines = 0;
    for (const frame::Path& path : paths_in(figure.items)) lines += has_pen(path, pen_called(drawn.layout, "negative_mean")) ? 1U : 0U;
    CHECK(lines == 2);
}

TEST_CASE("below one run each way stand its extremes and what is measured, and what it cannot give is said", "[pictures]") {
    DrawnDocument drawn(one_run_each_way(9));
    const auto pages = drawn.pages("readings");
    const frame::Group& figure = group_of(pages.at(0).items, "one-run-x");
    const ScaleRead scale(figure);
    // E from 0 of the positive run to 8 x 0.5 + 2 = 6 at the last target, or 3.5 + 3.1 = 6.6 at the last but one.
    bool measured = false;
    for (const frame::Path& path : paths_in(figure.items)) {
        const auto points = points_of(path);
        if (points.size() != 4 || !has_pen(path, pen_called(drawn.layout, "bracket"))) continue;
        const bool is_E = x_of(points[1]) == Approx(scale.at(0)).margin(1e-3) && x_of(points[2]) == Approx(scale.at(6.6)).margin(1e-3);
        measured = measured || is_E;
    }
    CHECK(measured);
    // The limit on E is centred on its extremes.
    std::vector<double> limits;
    for (const frame::Path& path : paths_in(figure.items)) {
        const auto ends = points_of(path);
        const bool upright = ends.size() == 2 && ends[0].x == ends[1].x && y_of(ends[1]) - y_of(ends[0]) > 50;
        if (upright && has_pen(path, pen_called(drawn.layout, "limit"))) limits.push_back(x_of(ends[0]));
    }
    REQUIRE(limits.size() == 2);
    CHECK(std::ranges::max(limits) - std::ranges::min(limits) == Approx(2 * scale.of_ten).margin(1e-3));
    const std::string words = words_of(pages[0].items);
    for (const char* said : {"Largest", "Smallest", "6.6", "not evaluated"}) CHECK(words.find(said) != std::string::npos);
}

TEST_CASE("one run each way over more targets than a page holds goes on with its figure, and no row is lost", "[pictures]") {
    DrawnDocument drawn(one_run_each_way(90));
    const auto pages = drawn.pages("readings");
    REQUIRE(pages.size() == 2);
    std::size_t rows = 0;
    for (const frame::Frame& page : pages) {
        const frame::Group& figure = group_of(page.items, "one-run-x");
        const std::size_t here = corners_of(figure, pen_called(drawn.layout, "positive_mean")).size();
        CHECK(here > 1);
        rows += here;
    }
    CHECK(rows == 90);
    // What is measured over all targets stands under the last.
    CHECK(words_of(pages[0].items).find("Largest") == std::string::npos);
    CHECK(words_of(pages[1].items).find("Largest") != std::string::npos);
}

TEST_CASE("more runs, or one in one approach, have their table as before", "[pictures]") {
    for (const small::Json& json : {small::positioning(), small::without_approach(one_run_each_way(9), "negative")}) {
        DrawnDocument drawn(json);
        for (const frame::Frame& page : drawn.pages("readings")) CHECK(figures_in(page.items).empty());
    }
}

TEST_CASE("of few rows too no name of a setting target lies on a curve or on the scale", "[pictures]") {
    small::Json series = small::x_series();
    series["targets"] = {0, 250, 500};
    series["runs"] = small::runs_each_way({{0.1, 1.4, 2.2}}, {{-0.6, 0.5, 1.6}});
    DrawnDocument drawn(small::document(small::list(series)));
    const auto pages = drawn.pages("readings");
    const frame::Group& figure = group_of(pages.at(0).items, "one-run-x");
    std::size_t labels = 0, strokes = 0;
    for (const frame::GlyphRun& run : runs_in(figure.items)) {
        if (!run.text.ends_with(":\u00a0")) continue;
        ++labels;
        // About as wide as the number are the symbols behind it.
        const frame::Paper middle = run.origin.y - run.ascent / 3, right = run.origin.x + run.advance * 2;
        for (const char* pen : {"positive_mean", "negative_mean", "mean", "tick"})
            for (const frame::Path& path : paths_in(figure.items)) {
                if (!has_pen(path, pen_called(drawn.layout, pen))) continue;
                ++strokes;
                const auto at = points_of(path);
                for (std::size_t i = 1; i < at.size(); ++i)
                    for (double share = 0; share <= 1; share += 0.01) {
                        const frame::Paper x = at[i - 1].x + (at[i].x - at[i - 1].x) * share,
                                           y = at[i - 1].y + (at[i].y - at[i - 1].y) * share;
                        const bool level = y > middle - units::point(3) && y < middle + units::point(3);
                        CHECK_FALSE((level && x > run.origin.x && x < right));
                    }
            }
    }
    CHECK(labels == 2);
    CHECK(strokes >= 2 * 3);
}

}  // namespace wayfolio::testing
