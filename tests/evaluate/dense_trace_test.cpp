#include "evaluate/evaluation.hpp"
#include "evaluate/nist_data.hpp"
#include "evaluate/numbers/trace/outline.hpp"
#include "support/documents.hpp"

#include <catch2/catch.hpp>

#include <functional>
#include <map>

/// Traces of so many samples that they are only walked through. What is expected is computed here from all of them, in long double.
using namespace wayfolio;
using namespace wayfolio::evaluate;
using document::Approach;
using document::ReferenceLine;

namespace {

struct Sample {
    double x, y;
};
using SampleAt = std::function<Sample(std::size_t)>;

document::Series dense_series(const std::string& symbol, const std::vector<double>& targets, std::size_t count, SampleAt sample_at) {
    document::Series series = support::series(symbol, targets, {}, {}, units::micrometre, units::position_millimetre);
    const auto sample = [=](std::size_t i) {
        const auto [x, y] = sample_at(i);
        return document::TraceSample{units::Position(x, units::position_millimetre), units::Deviation(y, units::micrometre)};
    };
    double low = sample_at(0).x, high = low;
    for (std::size_t i = 0; i < count; ++i) low = std::min(low, sample_at(i).x), high = std::max(high, sample_at(i).x);
    document::ManySamples many{.count = count,
                               .low = {low, units::position_millimetre},
                               .high = {high, units::position_millimetre},
                               .begin = {sample(0)},
                               .sha256 = {},
                               .walk = [=](const document::TakeSamples& take) {
                                   for (std::size_t i = 0; i < count; ++i) take(std::vector{sample(i)});
                               }};
    series.trace.emplace().many = std::make_shared<const document::ManySamples>(std::move(many));
    return series;
}

TraceEvaluation dense_traced(const document::Series& series) {
    return evaluate::evaluate(support::document(series)).series.at(0).trace.value();
}

/// Seeded noise that needs no memory: splitmix64 [Steele, Lea and Flood, OOPSLA 2014, from memory], even in -1..1.
double noise_at(std::size_t i) {
    std::uint64_t z = (i + 1) * 0x9E3779B97F4A7C15U;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
    return static_cast<double>((z ^ (z >> 31U)) >> 11U) / 4503599627370496.0 - 1;
}

constexpr std::size_t dense_count = 400'000;

/// A bow, a slope and noise, by steps that are not even, over 1 m.
Sample bowed(std::size_t i) {
    const double t = static_cast<double>(i) / (dense_count - 1), x = 1000 * (t + 0.2 * t * (1 - t));
    return {x, 30 * x / 1000 + 12 * (x / 1000) * (1 - x / 1000) + 0.8 * noise_at(i)};
}

struct LongLine {
    long double slope, at_zero;
    [[nodiscard]] long double at(long double x) const { return at_zero + slope * x; }
};

/// Least squares over the way: the integrals along the straight pieces between samples, in two passes. The first piece ends where the axis
/// has moved by more than 0.01 mm: before that nobody knows which way it goes.
LongLine least_squares_over_way(std::size_t count, const SampleAt& sample_at) {
    const auto pieces = [&](const std::function<void(const Sample&, const Sample&)>& take) {
        Sample before = sample_at(0);
        for (std::size_t i = 1; i < count; ++i) {
            const Sample sample = sample_at(i);
            if (sample.x - sample_at(0).x <= 0.01) continue;
            take(before, sample);
            before = sample;
        }
    };
    long double way = 0, mean_x = 0, mean_y = 0, xx = 0, xy = 0;
    pieces([&](const Sample& a, const Sample& b) {
        const long double step = static_cast<long double>(b.x) - a.x;
        way += step;
        mean_x += step * (static_cast<long double>(a.x) + b.x) / 2;
        mean_y += step * (static_cast<long double>(a.y) + b.y) / 2;
    });
    mean_x /= way, mean_y /= way;
    pieces([&](const Sample& a, const Sample& b) {
        const long double p = a.x - mean_x, q = b.x - mean_x, u = a.y - mean_y, v = b.y - mean_y, step = q - p;
        xx += step * (p * p + p * q + q * q) / 3;
        xy += step * (2 * p * u + p * v + q * u + 2 * q * v) / 6;
    });
    const long double slope = xy / xx;
    return {slope, mean_y - slope * mean_x};
}

struct LongRange {
    long double range;
    std::size_t highest, lowest;
};

LongRange range_about(const LongLine& line, std::size_t count, const SampleAt& sample_at) {
    long double high = -1e30L, low = 1e30L;
    LongRange found{};
    for (std::size_t i = 0; i < count; ++i) {
        const Sample sample = sample_at(i);
        const long double about = sample.y - line.at(sample.x);
        if (about > high) high = about, found.highest = i;
        if (about < low) low = about, found.lowest = i;
    }
    found.range = high - low;
    return found;
}

void check_line(const TraceLine& found, const LongLine& line) {
    const LongRange range = range_about(line, dense_count, bowed);
    CHECK(found.slope.in(units::micrometre_per_metre) == Approx(static_cast<double>(line.slope * 1e3L)).epsilon(1e-11));
    CHECK(found.offset.in(units::micrometre) == Approx(static_cast<double>(line.at(0))).margin(1e-9));
    CHECK(found.straightness.in(units::micrometre) == Approx(static_cast<double>(range.range)).epsilon(1e-11));
    CHECK(found.highest.sample == range.highest);
    CHECK(found.lowest.sample == range.lowest);
}

}  // namespace

TEST_CASE("the lines of a dense trace and the extremes about them are those that all samples give in long double", "[slow]") {
    const TraceEvaluation trace = dense_traced(dense_series("EYX", {}, dense_count, bowed));
    CHECK(trace.samples == dense_count);
    const LongRange all = range_about({0, 0}, dense_count, bowed);
    CHECK(trace.highest.sample == all.highest);
    CHECK(trace.lowest.sample == all.lowest);
    CHECK(trace.highest.position.in(units::position_millimetre) == bowed(all.highest).x);
    const auto& lines = *value_of(trace.lines.value());
    const auto line = [&](ReferenceLine kind) { return *std::ranges::find(lines, kind, &TraceLine::kind); };
    const Sample first = bowed(0), last = bowed(dense_count - 1);
    const long double chord = (static_cast<long double>(last.y) - first.y) / (static_cast<long double>(last.x) - first.x);
    check_line(line(ReferenceLine::EndPoint), {chord, first.y - chord * first.x});
    check_line(line(ReferenceLine::LeastSquares), least_squares_over_way(dense_count, bowed));
    // The least zone cannot be had more narrowly by turning its line: the range about it grows either way.
    const TraceLine& zone = line(ReferenceLine::MinimumZone);
    const long double slope = zone.slope.in(units::micrometre_per_metre) / 1e3L, offset = zone.offset.in(units::micrometre);
    const long double least = range_about({slope, offset}, dense_count, bowed).range;
    CHECK(zone.straightness.in(units::micrometre) == Approx(static_cast<double>(least)).epsilon(1e-11));
    for (const long double turn : {-1e-5L, -1e-7L, 1e-7L, 1e-5L})
        CHECK(range_about({slope + turn, offset}, dense_count, bowed).range > least);
}

TEST_CASE("200 dense passes have the mean and the standard deviation that NIST certifies for Lew", "[slow]") {
    const std::vector<double> lew = nist::lew;
    constexpr std::size_t samples_a_pass = 1000;
    const std::size_t count = 2 * lew.size() * samples_a_pass;
    // Each pass there stands at one of the values; back it stands at 100.
    const auto sample_at = [=](std::size_t i) {
        const std::size_t pass = i / samples_a_pass;
        const double t = static_cast<double>(i % samples_a_pass) / (samples_a_pass - 1);
        return pass % 2 == 0 ? Sample{500 * t, lew[pass / 2]} : Sample{500 * (1 - t), 100};
    };
    const TraceEvaluation trace = dense_traced(dense_series("EXX", {100.25, 333.125}, count, sample_at));
    CHECK(value_of(trace.passes)->positive == lew.size());
    REQUIRE(trace.targets.size() == 2);
    for (const TraceTarget& target : trace.targets) {
        CHECK(target.one_way.positive.n == lew.size());
        CHECK(target.one_way.positive.mean->in(units::micrometre) == Approx(-177.435000000000).epsilon(1e-14));
        CHECK(target.one_way.positive.s->in(units::micrometre) == Approx(277.332168044316).epsilon(1e-13));
        CHECK(target.one_way.negative.s->in(units::micrometre) == 0);
        CHECK(target.reversal->in(units::micrometre) == Approx(-277.435).epsilon(1e-14));
    }
}

namespace {

using ByColumn = std::map<std::size_t, std::pair<double, double>>;  ///< least and greatest

void note(ByColumn& columns, double x, double y, std::size_t count) {
    const auto column = std::min(static_cast<std::size_t>(x / 1000 * static_cast<double>(count)), count - 1);
    auto& [least, greatest] = columns.try_emplace(column, y, y).first->second;
    least = std::min(least, y);
    greatest = std::max(greatest, y);
}

/// Least and greatest of each column, of all samples and of those in the outline.
void check_columns(std::size_t count, const SampleAt& sample_at, std::size_t columns, std::size_t most_points) {
    TraceOutline outline(0, 1000, 0);
    ByColumn all, kept;
    for (std::size_t i = 0; i < count; ++i) {
        const Sample sample = sample_at(i);
        outline.add({i, sample.x, sample.y});
        note(all, sample.x, sample.y, columns);
    }
    const auto points = outline.points();
    for (const TracePoint& point : points) note(kept, point.x, point.y, columns);
    CHECK(points.size() <= most_points);
    CHECK(kept == all);
}

}  // namespace

TEST_CASE("the outline of a dense trace keeps least and greatest of each column, and is drawn in the order of time") {
    const auto there_and_back = [](std::size_t i) {
        const double t = static_cast<double>(i) / 499'999.0, x = t < 0.5 ? 2000 * t : 2000 * (1 - t);
        return Sample{std::clamp(x, 0.0, 1000.0), std::sin(x / 30) + 0.3 * noise_at(i) + (t < 0.5 ? 0 : 2)};
    };
    check_columns(500'000, there_and_back, 28'672, 4 * 2 * 28'673);
    TraceOutline outline(0, 1000, 0);
    for (std::size_t i = 0; i < 500'000; ++i) outline.add({i, there_and_back(i).x, there_and_back(i).y});
    const auto points = outline.points();
    CHECK(std::ranges::is_sorted(points, {}, &TracePoint::sample));
    CHECK(points.front().sample == 0);
    CHECK(points.back().sample == 499'999);
}

TEST_CASE("the outline of passes without end becomes coarser, then the band that they fill, and never grows beyond it") {
    for (const std::size_t passes : {15, 60}) {
        const auto sample_at = [=](std::size_t i) {
            const double t = static_cast<double>(i) / 20'000.0, in_pass = t - std::floor(t);
            return Sample{1000 * in_pass, noise_at(i) + std::sin(20 * in_pass)};
        };
        check_columns(20'000 * passes, sample_at, 7'168, passes == 15 ? 4 * 143'360 : 2 * 7'168);
    }
}

TEST_CASE("a trace that stands still has an outline of its first, least, greatest and last sample") {
    TraceOutline outline(5, 5, 0);
    for (std::size_t i = 0; i < 1000; ++i) outline.add({i, 5, static_cast<double>((i * 37) % 1000)});
    const auto points = outline.points();
    REQUIRE(points.size() == 3);  // the first is the least
    CHECK(points[0].y == 0);
    CHECK(points[1].y == 999);
    CHECK(points[2].sample == 999);
}

TEST_CASE("the corners of a running hull are those of all points at once, in whatever order they come") {
    for (const int order : {0, 1, 2, 3, 4}) {
        RunningHull running;
        std::vector<std::pair<double, double>> all;
        for (std::size_t i = 0; i < 30'000; ++i) {
            const double t = static_cast<double>(i) / 30'000, turned = order % 3 == 0 ? t : order == 1 ? noise_at(i) : 1 - t;
            const double x = order > 2 ? std::round(30'000 * turned) / 512 : std::round(200 * turned) / 4;
            const double y = std::round(8 * noise_at(3 * i)) + 0.02 * x * x;
            running.add({i, x, y});
            all.emplace_back(x, y);
        }
        // Gift wrapping: from the leftmost lowest point, always the point that leaves all others on the left.
        const auto area = [](const auto& a, const auto& b, const auto& c) {
            return (b.first - a.first) * (c.second - a.second) - (b.second - a.second) * (c.first - a.first);
        };
        std::ranges::sort(all);
        all.erase(std::unique(all.begin(), all.end()), all.end());
        std::vector<std::pair<double, double>> wrapped{all.front()};
        while (true) {
            auto next = wrapped.back() == all.front() ? all.back() : all.front();
            for (const auto& point : all) {
                const double side = area(wrapped.back(), next, point);
                const auto far = [&](const auto& to) {
                    return std::hypot(to.first - wrapped.back().first, to.second - wrapped.back().second);
                };
                if (side < 0 || (side == 0 && far(point) > far(next))) next = point;
            }
            if (next == all.front()) break;
            wrapped.push_back(next);
        }
        std::ranges::sort(wrapped);
        std::vector<std::pair<double, double>> found;
        for (const TracePoint& corner : running.corners()) found.emplace_back(corner.x, corner.y);
        CHECK(found == wrapped);
    }
}

TEST_CASE("a curve without noise, each of whose points is a corner, has its range within 1e-6 and no hull that grows", "[slow]") {
    RunningHull hull;
    constexpr std::size_t points = 1'500'000;
    for (std::size_t i = 0; i < points; ++i) {
        const double x = static_cast<double>(i) / (points - 1);
        hull.add({i, x, 3 * x + x * x});
    }
    const auto corners = hull.corners();
    CHECK(corners.size() < 700'000);
    CHECK(corners.front().sample == 0);
    CHECK(corners.back().sample == points - 1);
    double least = 0, greatest = 0;
    for (const TracePoint& corner : corners) {
        least = std::min(least, corner.y - 4 * corner.x);
        greatest = std::max(greatest, corner.y - 4 * corner.x);
    }
    CHECK(greatest - least == Approx(0.25).epsilon(1e-6));  // x^2 - x
}
