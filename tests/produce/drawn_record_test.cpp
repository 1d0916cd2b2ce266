#include "support/drawn_plot.hpp"
#include "support/pictures.hpp"
#include "support/small_documents.hpp"

#include <catch2/catch.hpp>

namespace wayfolio::testing {

namespace {

/// One panel of a record, as it is drawn: its scale and its curves in their order.
struct RecordPanelRead {
    ReadScale y;
    std::vector<std::vector<frame::Path>> curves;
};

/// Minutes of the day over paper, from the clock times under the panels.
ReadScale time_scale(const frame::Group& figure) {
    std::vector<std::pair<double, double>> known;
    std::optional<double> tick;
    for (const frame::Item& item : group_of(figure.items, "x-axis").items) {
        if (const auto* path = std::get_if<frame::Path>(&item)) tick = x_of(points_of(*path)[0]);
        const auto* run = std::get_if<frame::GlyphRun>(&item);
        if (run && run->text.size() == 5 && run->text[2] == ':')
            known.emplace_back(tick.value(), std::stod(run->text.substr(0, 2)) * 60 + std::stod(run->text.substr(3)));
    }
    return {known.at(0).first, known.at(0).second, known.back().first, known.back().second};
}

/// Groups without a name follow each other: ticks with their numbers open a panel, curves hold no words.
std::vector<RecordPanelRead> panels_of(const frame::Group& figure) {
    std::vector<RecordPanelRead> panels;
    for (const frame::Item& item : figure.items) {
        const auto* group = std::get_if<frame::Group>(&item);
        if (!group || !group->id.empty()) continue;
        if (!runs_in(group->items).empty())
            panels.push_back({scale_of(*group, Along::Y), {}});
        else
            panels.back().curves.push_back(paths_in(group->items));
    }
    return panels;
}

/// The points of a curve are the samples that have this key, one every 20 minutes from 08:00.
void check_curve(const ReadScale& time, const ReadScale& y, const std::vector<frame::Path>& paths,
                 const nlohmann::json::json_pointer& key) {
    CAPTURE(key.to_string());
    const nlohmann::json samples = small::surroundings()["environment"]["samples"];
    std::vector<std::pair<double, double>> points, wanted;
    for (const frame::Path& path : paths)
        for (const frame::Point& point : points_of(path)) points.emplace_back(time.at(x_of(point)), y.at(y_of(point)));
    for (std::size_t i = 0; i < samples.size(); ++i)
        if (samples[i].contains(key)) wanted.emplace_back(480 + 20.0 * static_cast<double>(i), samples[i][key].get<double>());
    REQUIRE(points.size() == wanted.size());
    for (std::size_t i = 0; i < points.size(); ++i) {
        CHECK(points[i].first == Approx(wanted[i].first).margin(hairline));
        CHECK(points[i].second == Approx(wanted[i].second).margin(hairline));
    }
    CHECK(paths.size() == (wanted.size() == samples.size() ? 1U : 2U));
}

}  // namespace

TEST_CASE("curves of the surroundings pass through every sample at its time, and break where one is missing", "[pictures]") {
    using Key = nlohmann::json::json_pointer;
    const DrawnDocument drawn(small::surroundings());
    const frame::Frame frame = drawn.figure("", "environment");
    const ReadScale time = time_scale(the_figure(frame));
    const auto panels = panels_of(the_figure(frame));
    REQUIRE(panels.size() == 5);
    check_curve(time, panels[0].y, panels[0].curves.at(0), Key("/air_C"));
    check_curve(time, panels[1].y, panels[1].curves.at(0), Key("/machine_C/bed"));
    check_curve(time, panels[1].y, panels[1].curves.at(1), Key("/machine_C/scale"));
    check_curve(time, panels[2].y, panels[2].curves.at(0), Key("/pressure_hPa"));
    check_curve(time, panels[3].y, panels[3].curves.at(0), Key("/humidity_percent"));
    // What the air does to the length is no sample of the document; it is nothing where the air is missing.
    const auto& effect = panels[4].curves.at(0);
    REQUIRE(effect.size() == 2);
    CHECK(points_of(effect[0]).size() == 3);
    CHECK(points_of(effect[1]).size() == 3);
}

TEST_CASE("a run's lane reaches from its start to its end, under a stroke of its direction", "[pictures]") {
    const DrawnDocument drawn(small::surroundings());
    const frame::Frame frame = drawn.figure("", "environment");
    const ReadScale time = time_scale(the_figure(frame));
    std::vector<frame::Path> lanes, strokes;
    for (const frame::Path& path : paths_in(group_of(the_figure(frame).items, "runs").items))
        (path.fill ? lanes : strokes).push_back(path);
    REQUIRE(lanes.size() == 6);
    REQUIRE(strokes.size() == 6);
    for (std::size_t i = 0; i < 6; ++i) {
        const frame::Rect box = *frame::bounds(lanes[i]);
        const double start = 500 + 10.0 * static_cast<double>(i);
        CHECK(time.at(box.left.in(units::point)) == Approx(start).margin(hairline));
        CHECK(time.at(box.right().in(units::point)) == Approx(start + 8).margin(hairline));
        CHECK(time.at(x_of(points_of(strokes[i])[0])) == Approx(start).margin(hairline));
        CHECK(has_pen(strokes[i], pen_called(drawn.layout, i % 2 == 0 ? "positive_mean" : "negative_mean")));
    }
}

}  // namespace wayfolio::testing
