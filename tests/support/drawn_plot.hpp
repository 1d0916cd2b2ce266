#pragma once
#include "frame/walk.hpp"
#include "layouts/layout.hpp"
#include "support/frame_parts.hpp"
#include "units/number_text.hpp"
#include "units/position.hpp"

#include <charconv>
#include <cmath>
#include <map>

/// Drawings read back into quantities: paper to numbers through the ticks and the words beside them, as a reader does it with a
/// ruler.
namespace wayfolio::testing {

/// Paper is not rounded before it is written: what was read back and what was meant differ by less.
inline constexpr double hairline = 1e-6;

inline double metres(const units::Position& position) { return position.in(units::position_metre); }

inline double x_of(const frame::Point& point) { return point.x.in(units::point); }
inline double y_of(const frame::Point& point) { return point.y.in(units::point); }

inline std::vector<frame::Point> points_of(const frame::Path& path) {
    std::vector<frame::Point> points;
    for (const frame::PathStep& step : path.steps) {
        if (const auto* move = std::get_if<frame::MoveTo>(&step)) points.push_back(move->to);
        if (const auto* line = std::get_if<frame::LineTo>(&step)) points.push_back(line->to);
        if (const auto* curve = std::get_if<frame::CurveTo>(&step)) points.push_back(curve->to);
    }
    return points;
}

/// Every path under these items, in their order.
inline std::vector<frame::Path> paths_in(const std::vector<frame::Item>& items) {
    std::vector<frame::Path> paths;
    frame::walk(items, [&](const frame::Path& path) { paths.push_back(path); });
    return paths;
}

inline std::vector<frame::GlyphRun> runs_in(const std::vector<frame::Item>& items) {
    std::vector<frame::GlyphRun> runs;
    frame::walk(items, [&](const frame::GlyphRun& run) { runs.push_back(run); });
    return runs;
}

/// The run that says just this. @throws std::runtime_error for none
inline frame::GlyphRun run_saying(const std::vector<frame::Item>& items, const std::string& words) {
    for (frame::GlyphRun& run : runs_in(items))
        if (run.text == words) return run;
    throw std::runtime_error("nothing says " + words);
}

/// A zero-length line of a round pen.
inline bool is_disc(const frame::Path& path) {
    const auto points = points_of(path);
    return path.stroke && path.stroke->cap == frame::Cap::Round && points.size() == 2 && points[0] == points[1];
}

inline bool has_pen(const frame::Path& path, const layouts::Pen& pen) {
    return path.stroke && path.stroke->width == pen.width && path.stroke->colour == pen.colour && path.stroke->dash == pen.dash;
}

/// A role by its word in a layout file.
template <class Role>
Role role_called(std::string_view word) {
    for (const auto& known : layouts::role_words<Role>)
        if (known.word == word) return known.role;
    throw std::runtime_error("no role is called " + std::string(word));
}

inline const layouts::Pen& pen_called(const layouts::Layout& layout, std::string_view word) {
    return layout.pen(role_called<layouts::PenRole>(word));
}
inline frame::Colour colour_called(const layouts::Layout& layout, std::string_view word) {
    return layout.colour(role_called<layouts::ColourRole>(word));
}
inline units::Paper size_called(const layouts::Layout& layout, std::string_view word) {
    return layout.size(role_called<layouts::SizeRole>(word));
}

/// A number as it is printed, with a minus sign of its own and thin spaces between thousands. Nothing where the words are no
/// number.
inline std::optional<double> printed_number(std::string words) {
    const std::string minus = "\u2212";
    if (words.starts_with(minus)) words.replace(0, minus.size(), "-");
    for (std::size_t at; (at = words.find(units::thin_space)) != std::string::npos;) words.erase(at, units::thin_space.size());
    double number = 0;
    const auto [end, error] = std::from_chars(words.data(), words.data() + words.size(), number);
    if (error != std::errc() || end != words.data() + words.size()) return std::nullopt;
    return number;
}

/// A straight scale between two known places on paper.
class ReadScale {
public:
    ReadScale(double paper1, double value1, double paper2, double value2)
        : slope_((value2 - value1) / (paper2 - paper1)), paper_(paper1), value_(value1) {
        if (!std::isfinite(slope_) || slope_ == 0) throw std::runtime_error("two ticks do not make a scale");
    }
    [[nodiscard]] double at(double paper) const { return value_ + (paper - paper_) * slope_; }

private:
    double slope_, paper_, value_;
};

enum class Along { X, Y };

/// The scale of an axis from its ticks, each followed by its number. @throws std::runtime_error where a tick is off the line of
/// the others
inline ReadScale scale_of(const frame::Group& axis, Along along) {
    std::vector<std::pair<double, double>> known;
    std::optional<double> tick;
    for (const frame::Item& item : axis.items) {
        if (const auto* path = std::get_if<frame::Path>(&item)) {
            const auto points = points_of(*path);
            const bool across = along == Along::X ? x_of(points[0]) == x_of(points[1]) : y_of(points[0]) == y_of(points[1]);
            tick = across ? std::optional(along == Along::X ? x_of(points[0]) : y_of(points[0])) : std::nullopt;
        } else if (const auto* run = std::get_if<frame::GlyphRun>(&item)) {
            if (const auto number = printed_number(run->text); tick && number) known.emplace_back(*tick, *number);
        }
    }
    if (known.size() < 2) throw std::runtime_error("an axis without two numbers");
    const ReadScale scale(known.front().first, known.front().second, known.back().first, known.back().second);
    for (const auto& [paper, value] : known)
        if (std::abs(scale.at(paper) - value) > 1e-6) throw std::runtime_error("the ticks of an axis are not evenly spaced");
    return scale;
}

/// What one of the units that stand after a slash ("X / mm") is in metres, and one of deviations in micrometres; 1 for others.
inline double in_base(const std::vector<frame::Item>& items) {
    static const std::map<std::string, double> known{{"mm", 1e-3}, {"in", 0.0254}, {"µin", 0.0254}};
    for (const frame::Item& item : items)
        if (const auto* run = std::get_if<frame::GlyphRun>(&item))
            if (const std::size_t slash = run->text.rfind(" / "); slash != std::string::npos) {
                const auto unit = known.find(run->text.substr(slash + 3));
                return unit == known.end() ? 1 : unit->second;
            }
    return 1;
}

/// A figure of deviations against position: what its marks say in quantities, places in metres and lengths in micrometres.
struct ReadPlot {
    const frame::Group& figure;
    ReadScale x, y;
    double metres_each = in_base(group_of(figure.items, "x-axis").items), micrometres_each = in_base(figure.items);

    explicit ReadPlot(const frame::Group& group)
        : figure(group),
          x(scale_of(group_of(group.items, "x-axis"), Along::X)),
          y(scale_of(group_of(group.items, "y-axis"), Along::Y)) {}

    [[nodiscard]] std::vector<frame::Path> paths(const std::string& id) const {
        return paths_in(group_of(figure.items, id).items);
    }
    [[nodiscard]] double position(const frame::Point& point) const { return metres_each * x.at(x_of(point)); }
    [[nodiscard]] double deviation(const frame::Point& point) const { return micrometres_each * y.at(y_of(point)); }
    /// Lowest and highest level of a path's points over a position.
    [[nodiscard]] std::pair<double, double> levels(const frame::Path& path, double position_wanted) const {
        std::vector<double> found;
        for (const frame::Point& point : points_of(path))
            if (std::abs(position(point) - position_wanted) < 1e-6) found.push_back(deviation(point));
        if (found.empty()) throw std::runtime_error("nothing is drawn at " + std::to_string(position_wanted));
        return {*std::ranges::min_element(found), *std::ranges::max_element(found)};
    }
};

/// The one figure of a drawing.
inline const frame::Group& the_figure(const frame::Frame& frame) {
    const auto found = figures_in(frame.items);
    if (found.size() != 1) throw std::runtime_error(std::to_string(found.size()) + " figures in place of one");
    return *found.front();
}

}  // namespace wayfolio::testing
