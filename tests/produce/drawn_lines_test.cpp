#include "support/drawn_plot.hpp"
#include "support/pictures.hpp"
#include "support/small_documents.hpp"

#include <catch2/catch.hpp>

namespace wayfolio::testing {

TEST_CASE("measurement lines stand in the drawing to one scale, right-handed about the upright axis", "[pictures]") {
    DrawnDocument drawn(small::upright_tool_point());
    const auto pages = drawn.pages("measurement-lines");
    const frame::Group& figure = group_of(pages.at(0).items, "measurement-lines");
    const auto way = [&](std::string_view pen, std::size_t which) {
        std::vector<std::pair<double, double>> ways;
        for (const frame::Path& path : paths_in(figure.items)) {
            if (!has_pen(path, pen_called(drawn.layout, pen))) continue;
            const auto ends = points_of(path);
            ways.emplace_back(x_of(ends.back()) - x_of(ends.front()), y_of(ends.back()) - y_of(ends.front()));
        }
        return ways.at(which);
    };
    // Along X over the targets, to the right and down by 30 degrees; Y to the right and up; Z up.
    const double length_mm = drawn.document.series[0].targets.back().written - drawn.document.series[0].targets.front().written;
    const auto [right, down] = way("measured_line", 0);
    const double scale = std::hypot(right, down) / length_mm;
    CHECK(down / right == Approx(std::tan(units::pi / 6)));
    const auto [y_right, y_down] = way("quiet_axis", 0);
    CHECK(y_right == Approx(250 * scale * std::sqrt(0.75)));
    CHECK(y_down == Approx(-250 * scale / 2));
    const auto [z_right, z_down] = way("quiet_axis", 1);
    CHECK(z_right == Approx(0).margin(hairline));
    CHECK(z_down == Approx(300 * scale));
    // The functional point is 210 mm above the line, at its end and all along it.
    CHECK(way("curve", 0).second == Approx(-210 * scale));
    const auto [path_right, path_down] = way("mean", 0);
    CHECK(path_right == Approx(right));
    CHECK(path_down == Approx(down));
}

TEST_CASE("line and functional point are named in the drawing, each by a leader that ends at it", "[pictures]") {
    DrawnDocument drawn(small::upright_tool_point());
    const auto pages = drawn.pages("measurement-lines");
    const frame::Group& figure = group_of(pages.at(0).items, "measurement-lines");
    const frame::GlyphRun line = run_saying(figure.items, "Line 1, along X"), point = run_saying(figure.items, "Functional point");
    CHECK(words_of(figure.items).find("210\u202fmm in Z from line 1") != std::string::npos);
    const auto leads_from = [&](const std::function<bool(const frame::Point&)>& is_there, const frame::GlyphRun& to) {
        return std::ranges::any_of(paths_in(figure.items), [&](const frame::Path& path) {
            const auto ends = points_of(path);
            if (ends.size() != 2 || !has_pen(path, pen_called(drawn.layout, "quiet_axis"))) return false;
            const bool below = x_of(ends[1]) > x_of(to.origin) - 1 && x_of(ends[1]) < x_of(to.origin) + to.advance.in(units::point) + 40;
            return is_there(ends[0]) && below && std::abs(y_of(ends[1]) - y_of(to.origin)) < 24;
        });
    };
    std::vector<frame::Point> measured;
    for (const frame::Path& path : paths_in(figure.items))
        if (has_pen(path, pen_called(drawn.layout, "measured_line"))) measured = points_of(path);
    REQUIRE(measured.size() == 2);
    const double slope = (y_of(measured[1]) - y_of(measured[0])) / (x_of(measured[1]) - x_of(measured[0]));
    CHECK(leads_from([&](const frame::Point& at) {
        return y_of(at) == Approx(y_of(measured[0]) + slope * (x_of(at) - x_of(measured[0]))).margin(hairline);
    }, line));
    // The functional point stands above the line's last target.
    CHECK(leads_from([&](const frame::Point& at) { return x_of(at) == Approx(x_of(measured[1])).margin(hairline); }, point));
}

}  // namespace wayfolio::testing
