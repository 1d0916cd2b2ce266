#include "plot/fine_line.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

using namespace wayfolio;

namespace {

constexpr double dot = 72.0 / 600;

struct Ink {
    double low = HUGE_VAL, high = -HUGE_VAL;
    void add(double y) {
        low = std::min(low, y);
        high = std::max(high, y);
    }
};

/// What the line covers of each column of dots, segment by segment, each cut where columns end.
std::map<int, Ink> ink_of(const std::vector<frame::Point>& points) {
    std::map<int, Ink> columns;
    for (std::size_t i = 1; i < points.size(); ++i) {
        const double x0 = points[i - 1].x.in(units::point), y0 = points[i - 1].y.in(units::point);
        const double x1 = points[i].x.in(units::point), y1 = points[i].y.in(units::point);
        const auto first = static_cast<int>(std::floor(std::min(x0, x1) / dot));
        const auto last = static_cast<int>(std::floor(std::max(x0, x1) / dot));
        for (int column = first; column <= last; ++column)
            for (const double edge : {column * dot, (column + 1) * dot}) {
                const double x = std::clamp(edge, std::min(x0, x1), std::max(x0, x1));
                columns[column].add(x0 == x1 ? y0 : y0 + (y1 - y0) * (x - x0) / (x1 - x0));
                if (x0 == x1) columns[column].add(y1);
            }
    }
    return columns;
}

std::vector<frame::Point> walk(int samples, double width, unsigned seed, double tremble) {
    std::mt19937 random(seed);
    const auto step = [&] { return static_cast<double>(random()) / 4294967296.0 - 0.5; };
    std::vector<frame::Point> points;
    double y = 0;
    for (int i = 0; i < samples; ++i) {
        y += step();
        points.push_back({units::point(width * i / samples + tremble * step()), units::point(y)});
    }
    return points;
}

}  // namespace

TEST_CASE("a long line covers of every column of dots at 600 dpi just what all of its points cover") {
    for (const auto& [samples, tremble] : {std::pair{1'000'000, 0.0}, {100'000, 0.0}, {100'000, 0.5}, {300, 0.0}}) {
        const std::vector<frame::Point> all = walk(samples, 336, 11, tremble), drawn = plot::fine_line(all);
        const auto ink = ink_of(all), drawn_ink = ink_of(drawn);
        REQUIRE(ink.size() == drawn_ink.size());
        double apart = 0;
        for (const auto& [column, covered] : ink)
            apart = std::max({apart, std::abs(covered.low - drawn_ink.at(column).low), std::abs(covered.high - drawn_ink.at(column).high)});
        CHECK(apart < 1e-9);
        if (tremble == 0) CHECK(drawn.size() <= 4 * 2'801);
        const auto [least, greatest] = std::ranges::minmax_element(all, {}, &frame::Point::y);
        CHECK(std::ranges::find(drawn, *least) != drawn.end());
        CHECK(std::ranges::find(drawn, *greatest) != drawn.end());
    }
}

TEST_CASE("a dense line that trembles takes two or three points a column, and covers the same") {
    std::vector<frame::Point> all = walk(400'000, 336, 5, 0);
    std::mt19937 random(7);
    for (frame::Point& point : all) point.y = units::point(20 * static_cast<double>(random()) / 4294967296.0);
    const std::vector<frame::Point> drawn = plot::fine_line(all);
    CHECK(static_cast<double>(drawn.size()) < 2.7 * 2'801);
    CHECK(drawn.front() == all.front());
    CHECK(drawn.back() == all.back());
    const auto ink = ink_of(all), drawn_ink = ink_of(drawn);
    REQUIRE(ink.size() == drawn_ink.size());
    for (const auto& [column, covered] : ink) {
        REQUIRE(covered.low == Approx(drawn_ink.at(column).low).margin(1e-9));
        REQUIRE(covered.high == Approx(drawn_ink.at(column).high).margin(1e-9));
    }
}

TEST_CASE("a line of a few points, and of none, stays as it is") {
    const std::vector<frame::Point> few = walk(200, 336, 3, 0);
    CHECK(plot::fine_line(few) == few);
    CHECK(plot::fine_line({}).empty());
}
