#include "document/read_document.hpp"
#include "frame/bounds.hpp"
#include "plot/shapes.hpp"
#include "support/drawn_plot.hpp"
#include "support/pictures.hpp"
#include "support/small_documents.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <set>

namespace wayfolio::testing {
namespace {

std::vector<std::filesystem::path> all_documents() {
    const std::filesystem::path source = WAYFOLIO_SOURCE_FOLDER;
    std::vector<std::filesystem::path> all;
    for (const char* folder : {"sample-results", "tests/golden/awkward"})
        for (const auto& entry : std::filesystem::directory_iterator(source / folder))
            if (entry.path().extension() == ".json") all.push_back(entry.path());
    std::ranges::sort(all);
    return all;
}

/// The pages with the plots of a document.
std::vector<frame::Frame> plot_pages(const std::filesystem::path& path, const char* paper = "A4") {
    const auto document = document::read_document(path);
    const auto evaluation = evaluate::evaluate(document);
    layouts::Layout layout = layouts::read_layout("report", paper);
    layout.blocks = {"openings", "straightness", "angles"};
    return produce::report_pages({document, evaluation, layout, shaper(), {{"wayfolio", "test"}}});
}

std::vector<frame::Group> groups_called(const std::vector<frame::Item>& items, const std::string& id) {
    std::vector<frame::Group> found;
    for (const frame::Item& item : items)
        if (const auto* group = std::get_if<frame::Group>(&item)) {
            if (group->id == id) found.push_back(*group);
            for (frame::Group& one : groups_called(group->items, id)) found.push_back(std::move(one));
        }
    return found;
}

/// From the edge of one box to that of the other; 0 where they meet.
double apart(const frame::Rect& a, const frame::Rect& b) {
    const auto gap = [](frame::Paper low, frame::Paper high, frame::Paper other_low, frame::Paper other_high) {
        return std::max({(other_low - high).in(units::point), (low - other_high).in(units::point), 0.0});
    };
    return std::hypot(gap(a.left, a.right(), b.left, b.right()), gap(a.top, a.bottom(), b.top, b.bottom()));
}

/// Whether a line of straight pieces goes through a box.
bool crosses(const frame::Path& line, const frame::Rect& box) {
    const std::vector<frame::Point> points = points_of(line);
    constexpr int looks = 100;  // at most a few points long, a piece is looked at closer than a letter is wide
    for (std::size_t i = 1; i < points.size(); ++i)
        for (int look = 0; look <= looks; ++look) {
            const double share = static_cast<double>(look) / looks;
            const frame::Point at{points[i - 1].x + (points[i].x - points[i - 1].x) * share,
                                  points[i - 1].y + (points[i].y - points[i - 1].y) * share};
            if (at.x > box.left && at.x < box.right() && at.y > box.top && at.y < box.bottom()) return true;
        }
    return false;
}

/// The letters of a run: figures and capitals from the baseline up.
frame::Rect ink_of(const frame::GlyphRun& run) {
    constexpr double of_size = 0.73;
    return {run.origin.x, run.origin.y - run.size * of_size, run.advance, run.size * of_size};
}

/// Relative luminance of sRGB (WCAG 2.2).
double srgb_luminance(const frame::Colour& colour) {
    const auto linear = [](unsigned char channel) {
        const double c = channel / 255.0;
        return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

/// Mean of each run in µm, in the order of reading, over the targets that all of them have.
std::vector<double> means_of_runs(const DrawnDocument& drawn, const std::string& id) {
    const document::Series& series = *document::find_series(drawn.document, id);
    std::vector<const document::Run*> in_order;
    for (const document::Run& run : series.runs) in_order.push_back(&run);
    std::ranges::stable_sort(in_order, {}, [](const document::Run* run) { return run->started; });  // all on one clock
    std::vector<double> means;
    for (const document::Run* run : in_order) {
        double sum = 0, count = 0;
        for (std::size_t target = 0; target < series.targets.size(); ++target) {
            if (!std::ranges::all_of(series.runs, [&](const document::Run& one) { return one.used(target).has_value(); })) continue;
            sum += run->used(target)->in(units::micrometre);
            ++count;
        }
        means.push_back(sum / count);
    }
    return means;
}

/// The first value axis of a figure, as its numbers say.
ReadScale first_scale_in(const frame::Group& figure) {
    for (const frame::Item& item : figure.items) {
        const auto* group = std::get_if<frame::Group>(&item);
        if (group && group->id.empty() && !runs_in(group->items).empty() && !paths_in(group->items).empty())
            return scale_of(*group, Along::Y);
    }
    throw std::runtime_error("no value axis");
}

double contrast_of(double one, double other) { return (std::max(one, other) + 0.05) / (std::min(one, other) + 0.05); }

}  // namespace

TEST_CASE("in every document each label of a setting target stands within 8 pt of its tick along the axis, and none on a limit line",
          "[samples]") {
    std::size_t labels = 0, limits = 0;
    for (const auto& path : all_documents())
        for (const char* paper : {"A4", "Letter"}) {
            for (const frame::Frame& page : plot_pages(path, paper)) {
                const auto limit_groups = groups_called(page.items, "limits");
                for (const frame::Group& group : groups_called(page.items, "setting-ticks")) {
                    const auto ticks = paths_in(group.items);
                    for (const frame::GlyphRun& run : runs_in(group.items)) {
                        if (run.text.empty() || run.text[0] < '0' || run.text[0] > '9') continue;  // of several runs the number
                        CAPTURE(path.filename().string(), paper, run.text, page.label);
                        ++labels;
                        double nearest = 1e9, along = 1e9;
                        std::vector<frame::Rect> whole{ink_of(run)};
                        for (const frame::GlyphRun& part : runs_in(group.items))
                            if (part.origin.y == run.origin.y && part.origin.x >= run.origin.x) whole.push_back(ink_of(part));
                        for (const frame::Path& tick : ticks)
                            for (frame::Rect box : whole) {
                                nearest = std::min(nearest, apart(*frame::bounds(tick), box));
                                box.top = frame::bounds(tick)->top;
                                along = std::min(along, apart(*frame::bounds(tick), box));
                            }
                        CHECK(along <= 8);
                        CHECK(nearest <= 42);  // over its band
                        for (const frame::Group& some : limit_groups)
                            for (const frame::Path& limit : paths_in(some.items)) {
                                ++limits;
                                CHECK(apart(*frame::bounds(limit), ink_of(run)) > 0);
                            }
                    }
                }
            }
        }
    CHECK(labels > 200);
    CHECK(limits > 100);
}

TEST_CASE("no name of a setting target lies on a mean line or a marker: beyond a limit, where the band reaches up to it", "[samples]") {
    std::size_t labels = 0;
    for (const auto& path : all_documents()) {
        for (const frame::Frame& page : plot_pages(path))
            for (const frame::Group& group : groups_called(page.items, "setting-ticks"))
                for (const frame::GlyphRun& run : runs_in(group.items)) {
                    if (run.text.empty() || run.text[0] < '0' || run.text[0] > '9') continue;
                    CAPTURE(path.filename().string(), run.text, page.label);
                    ++labels;
                    for (const char* id : {"markers-positive", "markers-negative"})
                        for (const frame::Group& markers : groups_called(page.items, id))
                            for (const frame::Path& marker : paths_in(markers.items))
                                CHECK(apart(*frame::bounds(marker), ink_of(run)) > 0);
                    for (const char* id : {"mean-positive", "mean-negative"})
                        for (const frame::Group& means : groups_called(page.items, id))
                            for (const frame::Path& mean : paths_in(means.items)) CHECK_FALSE(crosses(mean, ink_of(run)));
                }
    }
    CHECK(labels > 100);
}

TEST_CASE("the word for an approach lies on no trace", "[samples]") {
    std::size_t seen = 0;
    for (const char* name : {"trace-beside.json", "angle-steps.json"}) {
        for (const frame::Frame& page : plot_pages(std::filesystem::path(WAYFOLIO_SOURCE_FOLDER) / "tests/golden/awkward" / name))
            for (const frame::Group& trace : groups_called(page.items, "trace"))
                for (const frame::GlyphRun& run : runs_in(page.items)) {
                    if (run.text != "positive" && run.text != "negative") continue;
                    const frame::Rect ink = ink_of(run);
                    for (const frame::Path& path : paths_in(trace.items)) {
                        ++seen;
                        CHECK(std::ranges::none_of(points_of(path), [&](const frame::Point& at) {
                            return at.x > ink.left && at.x < ink.right() && at.y > ink.top && at.y < ink.bottom();
                        }));
                    }
                }
    }
    CHECK(seen > 0);
}

TEST_CASE("a verdict in the margin stands 14 pt below a key, or below what belongs to another figure", "[samples]") {
    std::size_t verdicts = 0;
    for (const auto& path : all_documents()) {
        const units::Paper margin = layouts::read_layout("report", "A4").grid().margin_left;
        const std::set<std::string> words{"Inside", "Outside", "Undecided", "Not accepted"};
        for (const frame::Frame& page : plot_pages(path)) {
            const auto runs = runs_in(page.items);
            for (const frame::GlyphRun& run : runs) {
                // Behind its symbol, and in body type: a table's verdicts are small.
                if (!words.contains(run.text) || run.size < units::point(8.5) || run.origin.x > margin + units::point(24)) continue;
                if (run.origin.x < margin) continue;
                CAPTURE(path.filename().string(), run.text, page.label);
                ++verdicts;
                for (const frame::GlyphRun& other : runs) {
                    const double below = y_of(run.origin) - y_of(other.origin);
                    if (other.origin.x >= margin && below > hairline) CHECK(below >= 14 - hairline);
                }
            }
        }
    }
    CHECK(verdicts > 10);
}

TEST_CASE("the two approaches are told apart in grey: lines by luminance, bands by hatches at right angles and by what both cover") {
    const layouts::Layout layout = layouts::read_layout("report", "A4");
    const auto of = [&](const char* role) { return srgb_luminance(colour_called(layout, role)); };
    CHECK(std::abs(of("positive") - of("negative")) > 0.12);
    CHECK(contrast_of(of("positive"), 1) > 4.5);
    CHECK(contrast_of(of("negative"), 1) > 4.5);
    const frame::Colour both = plot::multiplied(colour_called(layout, "positive_tint"), colour_called(layout, "negative_tint"));
    CHECK(both == frame::Colour{0xE1, 0xD4, 0xCD});
    CHECK(contrast_of(srgb_luminance(both), 1) > 1.4);
    CHECK(contrast_of(srgb_luminance(both), of("positive_tint")) > 1.1);
    CHECK(contrast_of(srgb_luminance(both), of("negative_tint")) > 1.2);
    CHECK(pen_called(layout, "positive_edge").dash.empty());
    CHECK_FALSE(pen_called(layout, "negative_edge").dash.empty());
}

TEST_CASE("what both bands cover is drawn where it is: between the lower upper edge and the higher lower one", "[pictures]") {
    DrawnDocument drawn(small::positioning());
    const frame::Frame frame = drawn.figure("x", "error");
    const ReadPlot plot(the_figure(frame));
    double area = 0, wanted = 0;
    const auto signed_area = [&](const std::vector<frame::Point>& points) {
        double twice = 0;
        for (std::size_t i = 0; i < points.size(); ++i) {
            const auto &a = points[i], &b = points[(i + 1) % points.size()];
            twice += x_of(a) * plot.deviation(b) - x_of(b) * plot.deviation(a);
        }
        return std::abs(twice / 2);
    };
    for (const frame::Path& path : plot.paths("band-overlap")) area += signed_area(points_of(path));
    // The same by slices: both bands are straight from target to target.
    const auto& targets = drawn.series("x").targets;
    const auto band = [&](std::size_t i, document::Approach approach, double twice) {
        const auto& [n, mean, s, R] = targets[i].one_way[approach];
        return mean->in(units::micrometre) + twice * s->in(units::micrometre);
    };
    const auto curve = points_of(plot.paths("mean-positive").at(0));
    constexpr int slices = 20000;
    for (std::size_t i = 0; i + 1 < targets.size(); ++i)
        for (int k = 0; k < slices; ++k) {
            const double share = (k + 0.5) / slices;
            const auto level = [&](document::Approach approach, double twice) {
                return band(i, approach, twice) * (1 - share) + band(i + 1, approach, twice) * share;
            };
            using enum document::Approach;
            const double height = std::min(level(Positive, 2), level(Negative, 2)) - std::max(level(Positive, -2), level(Negative, -2));
            wanted += std::max(0.0, height) * (x_of(curve[i + 1]) - x_of(curve[i])) / slices;
        }
    REQUIRE(wanted > 0);
    CHECK(area == Approx(wanted).epsilon(1e-4));
}

TEST_CASE("the mean of a run stands at the mean of its readings, and its bar is as long as the run", "[pictures]") {
    std::ifstream file(std::filesystem::path(WAYFOLIO_SOURCE_FOLDER) / "sample-results/long-axis.json");
    DrawnDocument drawn(nlohmann::json::parse(file));
    const auto pages = drawn.pages("openings");
    std::size_t found = 0;
    for (const frame::Frame& page : pages)
        for (const frame::Group& group : groups_called(page.items, "run-order")) {
            ++found;
            const auto lanes = paths_in(groups_called(group.items, "run-lanes").at(0).items);
            std::vector<frame::Path> bars;
            for (const frame::Path& path : paths_in(groups_called(group.items, "run-means").at(0).items))
                if (!is_disc(path) && points_of(path).size() == 2) bars.push_back(path);
            REQUIRE(bars.size() == lanes.size());
            CHECK(bars.size() == 10);
            const auto means = means_of_runs(drawn, found == 1 ? "x-exx-found" : "x-exx-left");
            REQUIRE(means.size() == bars.size());
            const ReadScale scale = first_scale_in(group);
            for (std::size_t i = 0; i < bars.size(); ++i) {
                CHECK(x_of(points_of(bars[i])[0]) == Approx(frame::bounds(lanes[i])->left.in(units::point)).margin(0.01));
                CHECK(x_of(points_of(bars[i])[1]) == Approx(frame::bounds(lanes[i])->right().in(units::point)).margin(0.01));
                CHECK(scale.at(y_of(points_of(bars[i])[0])) == Approx(means[i]).margin(hairline));
            }
        }
    CHECK(found == 2);  // as found and as left
}

}  // namespace wayfolio::testing
