#include "support/drawn_plot.hpp"
#include "support/pictures.hpp"
#include "support/small_documents.hpp"

#include <catch2/catch.hpp>

#include <map>

namespace wayfolio::testing {
using evaluate::TargetEvaluation;
using units::micrometre;

namespace {

struct Direction {
    std::string word;
    document::Approach approach;
};

const std::vector<Direction> directions{{"positive", document::Approach::Positive}, {"negative", document::Approach::Negative}};

double um(const std::optional<units::Deviation>& value) { return value.value().in(micrometre); }
/// The error figure of the series "x", with the axes read back.
struct ReadError {
    DrawnDocument drawn;
    frame::Frame frame;
    ReadPlot plot;
    const evaluate::SeriesEvaluation& series;

    explicit ReadError(const nlohmann::json& json, const std::string& figure = "error")
        : drawn(json), frame(drawn.figure("x", figure)), plot(the_figure(frame)), series(drawn.series("x")) {}
};

void check_bands(const ReadError& read) {
    for (const Direction& way : directions) {
        CAPTURE(way.word);
        const auto paths = read.plot.paths("band-" + way.word);
        REQUIRE(paths.size() == 1);
        CHECK(paths[0].fill == colour_called(read.drawn.layout, way.word + "_tint"));
        const auto hatches = read.plot.paths("hatch-" + way.word), edges = read.plot.paths("edges-" + way.word);
        REQUIRE(hatches.size() == 1);
        CHECK(hatches[0].stroke->colour == colour_called(read.drawn.layout, way.word + "_hatch"));
        REQUIRE(edges.size() == 2);
        for (const frame::Path& edge : edges) CHECK(has_pen(edge, pen_called(read.drawn.layout, way.word + "_edge")));
        for (const TargetEvaluation& target : read.series.targets) {
            const auto [low, high] = read.plot.levels(paths[0], metres(target.position));
            CHECK(low == Approx(um(target.one_way[way.approach].mean) - 2 * um(target.one_way[way.approach].s)).margin(hairline));
            CHECK(high == Approx(um(target.one_way[way.approach].mean) + 2 * um(target.one_way[way.approach].s)).margin(hairline));
        }
    }
}

/// Where a parameter's two extremes stand on the curves, lowest first; set_by tells target and direction, the level follows from
/// its means.
std::pair<double, double> extremes(const evaluate::SeriesEvaluation& series, const std::string& parameter) {
    double low = 0, high = 0;
    for (const evaluate::SetBy& set : evaluate::find_parameter(series, parameter)->set_by) {
        const TargetEvaluation& target = series.targets[set.index];
        double level = um(target.mean);
        for (const Direction& way : directions)
            if (set.approach == way.approach)
                level = um(target.one_way[way.approach].mean) +
                        (parameter == "A" ? (set.side == evaluate::Side::Max ? 2 : -2) * um(target.one_way[way.approach].s) : 0);
        (set.side == evaluate::Side::Max ? high : low) = level;
    }
    return {low, high};
}

}  // namespace

TEST_CASE("a band's edges are mean + 2 s and mean - 2 s at every target, in its direction's tint", "[pictures]") {
    check_bands(ReadError(small::positioning()));
    check_bands(ReadError(small::stated_only()));
    check_bands(ReadError(small::inches()));
}

TEST_CASE("mean lines and markers stand at the means, in the pen of their direction", "[pictures]") {
    for (const auto& json : {small::positioning(), small::stated_only(), small::one_run_each_way(), small::inches()}) {
        const ReadError read(json);
        for (const Direction& way : directions) {
            const auto lines = read.plot.paths("mean-" + way.word);
            REQUIRE(lines.size() == 1);
            CHECK(has_pen(lines[0], pen_called(read.drawn.layout, way.word + "_mean")));
            const frame::Group& markers = group_of(read.plot.figure.items, "markers-" + way.word);
            REQUIRE(points_of(lines[0]).size() == read.series.targets.size());
            REQUIRE(markers.items.size() == read.series.targets.size());
            for (std::size_t i = 0; i < read.series.targets.size(); ++i) {
                const TargetEvaluation& target = read.series.targets[i];
                CHECK(read.plot.position(points_of(lines[0])[i]) == Approx(metres(target.position)).margin(hairline));
                CHECK(read.plot.deviation(points_of(lines[0])[i]) == Approx(um(target.one_way[way.approach].mean)).margin(hairline));
                const auto discs = paths_in({markers.items[i]});
                CHECK(points_of(discs[0])[0] == points_of(lines[0])[i]);
                // Filled in the colour of the positive direction, open in that of the negative.
                CHECK(discs.size() == (way.word == "positive" ? 1U : 2U));
                CHECK(discs[0].stroke->colour == colour_called(read.drawn.layout, way.word));
            }
        }
    }
}

TEST_CASE("a run is drawn through its own readings in its direction's colour, and broken where one is missing or excluded",
          "[pictures]") {
    const ReadError whole(small::positioning());
    const auto runs = whole.plot.paths("runs");
    const document::Series& series = whole.drawn.document.series[0];
    REQUIRE(runs.size() == series.runs.size());
    for (std::size_t r = 0; r < runs.size(); ++r) {
        const bool positive = series.runs[r].approach == document::Approach::Positive;
        CHECK(runs[r].stroke->colour == colour_called(whole.drawn.layout, positive ? "positive_run" : "negative_run"));
        for (std::size_t i = 0; i < series.targets.size(); ++i)
            CHECK(whole.plot.deviation(points_of(runs[r])[i]) == Approx(um(series.runs[r].used(i))).margin(hairline));
    }
    // First run: the readings 0 and 2 stand alone beside the gaps at 1 and 3. Second: without its last. Third: 0 and 1 before the
    // excluded reading.
    const ReadError broken(small::missing_and_excluded());
    std::vector<std::size_t> lengths;
    for (const auto& run : broken.plot.paths("runs")) lengths.push_back(points_of(run).size());
    CHECK(lengths == std::vector<std::size_t>{4, 2, 5, 3, 5});
}

TEST_CASE("a mean line is broken where its direction has no reading", "[pictures]") {
    const ReadError read(small::missing_and_excluded());
    CHECK(points_of(read.plot.paths("mean-positive").at(0)).size() == 3);
    CHECK(points_of(read.plot.paths("mean-negative").at(0)).size() == 5);
    CHECK(read.plot.paths("mean-positive").size() == 2);
}

TEST_CASE("an excluded reading is a cross at its place, or at the edge with its value where it is off the scale", "[pictures]") {
    const ReadError read(small::missing_and_excluded());
    const auto strokes = read.plot.paths("excluded");
    REQUIRE(strokes.size() == 4);
    const auto centre = [&](std::size_t first) {
        const auto ends = points_of(strokes[first]);
        return frame::Point{(ends[0].x + ends[1].x) / 2, (ends[0].y + ends[1].y) / 2};
    };
    // 3.3 µm at 190 mm, of the third run and so the second mark; 90.5 µm at 400 mm.
    const std::size_t on = read.plot.position(centre(0)) < 0.3 ? 0 : 2, off = 2 - on;
    CHECK(read.plot.position(centre(on)) == Approx(0.19));
    CHECK(read.plot.deviation(centre(on)) == Approx(2.6).margin(hairline));
    CHECK(read.plot.position(centre(off)) == Approx(0.4));
    CHECK(read.plot.deviation(centre(off)) < 20);
    CHECK(words_of(group_of(read.plot.figure.items, "excluded").items).find("90.5") != std::string::npos);
}

TEST_CASE("limit lines stand one limit apart, their middle in the middle of the extremes that they judge", "[pictures]") {
    const ReadError read(small::positioning());
    const auto lines = read.plot.paths("limits");
    REQUIRE(lines.size() == 2);
    const double upper = read.plot.deviation(points_of(lines[0])[0]), lower = read.plot.deviation(points_of(lines[1])[0]);
    CHECK(upper - lower == Approx(9).margin(hairline));
    const auto [low, high] = extremes(read.series, "A");
    CHECK((upper + lower) / 2 == Approx((low + high) / 2).margin(hairline));
    CHECK(ReadError(small::judged("simple", 300)).plot.paths("limits").empty());
}

TEST_CASE("a bracket spans the levels at the two targets that set its parameter, and ticks stand there with the target's number",
          "[pictures]") {
    const ReadError read(small::positioning());
    const auto brackets = read.plot.paths("brackets"), ticks = read.plot.paths("setting-ticks");
    const std::vector<std::string> names{"M", "E", "A"};  // from the innermost
    REQUIRE(brackets.size() == names.size());
    const std::string words = words_of(group_of(read.plot.figure.items, "setting-ticks").items);
    for (std::size_t i = 0; i < names.size(); ++i) {
        CAPTURE(names[i]);
        const auto corners = points_of(brackets[i]);
        const auto [low, high] = extremes(read.series, names[i]);
        const evaluate::Parameter& parameter = *evaluate::find_parameter(read.series, names[i]);
        CHECK(read.plot.deviation(corners.front()) == Approx(high).margin(hairline));
        CHECK(read.plot.deviation(corners.back()) == Approx(low).margin(hairline));
        CHECK(high - low == Approx(um(*evaluate::value_of(parameter.value))).margin(hairline));
        if (i > 0) CHECK(x_of(corners[1]) > x_of(points_of(brackets[i - 1])[1]));
        for (const evaluate::SetBy& set : parameter.set_by) {
            const double level = set.side == evaluate::Side::Max ? high : low;
            CHECK(std::ranges::any_of(ticks, [&](const frame::Path& tick) {
                const auto ends = points_of(tick);
                return has_pen(tick, pen_called(read.drawn.layout, "setting_tick")) &&
                       std::abs(read.plot.deviation(ends[0]) - level) < hairline &&
                       read.plot.position(ends[0]) <= metres(set.position) + hairline &&
                       read.plot.position(ends[1]) >= metres(set.position) - hairline;
            }));
            CHECK(words.find(std::to_string(set.index + 1) + ":") != std::string::npos);
        }
    }
    const auto symbols = runs_in(group_of(read.plot.figure.items, "brackets").items);
    REQUIRE(symbols.size() == names.size());
    for (std::size_t i = 0; i < names.size(); ++i) {
        CHECK(symbols[i].text == names[i]);
        CHECK(x_of(symbols[i].origin) + symbols[i].advance.in(units::point) / 2 == Approx(x_of(points_of(brackets[i])[1])));
    }
}

TEST_CASE("a stem of reversal goes from zero to the reversal at its target, upwards where it is positive", "[pictures]") {
    const ReadError read(small::positioning(), "reversal");
    const auto paths = read.plot.paths("reversal");
    REQUIRE(paths.size() == 2 * read.series.targets.size());
    double largest = 0;
    for (std::size_t i = 0; i < read.series.targets.size(); ++i) {
        const double reversal = um(read.series.targets[i].reversal);
        const auto ends = points_of(paths[2 * i]);
        CHECK(reversal ==
              Approx(um(read.series.targets[i].one_way.positive.mean) - um(read.series.targets[i].one_way.negative.mean)).margin(hairline));
        CHECK(read.plot.position(ends[1]) == Approx(metres(read.series.targets[i].position)).margin(hairline));
        CHECK(read.plot.deviation(ends[0]) == Approx(0).margin(hairline));
        CHECK(read.plot.deviation(ends[1]) == Approx(reversal).margin(hairline));
        CHECK((y_of(ends[1]) < y_of(ends[0])) == (i == 2));
        CHECK(is_disc(paths[2 * i + 1]));
        CHECK(points_of(paths[2 * i + 1])[0] == ends[1]);
        if (std::abs(reversal) > std::abs(largest)) largest = reversal;
    }
    // The bracket at the side is as high as the largest, from zero.
    std::vector<frame::Path> beside;
    for (const frame::Item& item : read.plot.figure.items)
        if (const auto* path = std::get_if<frame::Path>(&item); path && points_of(*path).size() == 4) beside.push_back(*path);
    REQUIRE(beside.size() == 1);
    CHECK(read.plot.deviation(points_of(beside[0])[1]) == Approx(0).margin(hairline));
    CHECK(read.plot.deviation(points_of(beside[0])[2]) == Approx(largest).margin(hairline));
}

TEST_CASE("a stem of repeatability has the length, the pen and the side of its direction", "[pictures]") {
    for (const auto& json : {small::positioning(), small::stated_only()}) {
        const ReadError read(json, "repeatability");
        const auto paths = read.plot.paths("repeatability");
        std::map<std::string, std::vector<frame::Path>> stems;
        for (const Direction& way : directions)
            std::ranges::copy_if(paths, std::back_inserter(stems[way.word]), [&](const frame::Path& path) {
                return has_pen(path, pen_called(read.drawn.layout, way.word + "_stem"));
            });
        for (const Direction& way : directions) {
            REQUIRE(stems[way.word].size() == read.series.targets.size());
            for (std::size_t i = 0; i < read.series.targets.size(); ++i) {
                const TargetEvaluation& target = read.series.targets[i];
                const auto ends = points_of(stems[way.word][i]),
                           other = points_of(stems[way.word == "positive" ? "negative" : "positive"][i]);
                CHECK(read.plot.deviation(ends[0]) == Approx(0).margin(hairline));
                CHECK(read.plot.deviation(ends[1]) == Approx(um(target.one_way[way.approach].R)).margin(hairline));
                CHECK(um(target.one_way[way.approach].R) == Approx(4 * um(target.one_way[way.approach].s)).margin(hairline));
                // Side by side about the target.
                CHECK((read.plot.position(ends[1]) + read.plot.position(other[1])) / 2 ==
                      Approx(metres(target.position)).margin(hairline));
                CHECK((x_of(ends[1]) < x_of(other[1])) == (way.word == "positive"));
            }
        }
    }
}

}  // namespace wayfolio::testing
