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

}  // namespace wayfolio::testing
