#include "evaluate/review/hints.hpp"
#include "evaluate/review/site/before_leaving.hpp"
#include "evaluate/series/targets.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <string_view>

namespace wayfolio::evaluate {
namespace {

/// A profile along an axis, rising: places in mm, values in µm (straightness) or µrad (angle).
struct Curve {
    std::size_t place = 0;  ///< in the document
    std::vector<double> x, y;
};

constexpr std::size_t fewest_on_curve = 5;

/// The means of a series where they stand clear of their scatter.
std::optional<Curve> curve_of(const SeriesEvaluation& series, std::size_t place) {
    Curve curve;
    curve.place = place;
    for (const auto& target : series.targets) {
        const auto& value = target.trace_mean();
        if (!value || target.position.dimension() != units::Dimension::Length) continue;
        curve.x.push_back(target.position.in(units::position_millimetre));
        curve.y.push_back(in_base_unit(*value));
    }
    if (series.source != Source::Runs || curve.x.size() < fewest_on_curve) return std::nullopt;
    return curve;
}

void take_slope_out(const std::vector<double>& x, std::vector<double>& y) {
    double mx = 0, my = 0, xx = 0, xy = 0;
    const double n = static_cast<double>(x.size());
    for (std::size_t i = 0; i < x.size(); ++i) mx += x[i] / n, my += y[i] / n;
    for (std::size_t i = 0; i < x.size(); ++i) xx += (x[i] - mx) * (x[i] - mx), xy += (x[i] - mx) * (y[i] - my);
    for (std::size_t i = 0; i < x.size(); ++i) y[i] -= my + (xx > 0 ? xy / xx : 0) * (x[i] - mx);
}

/// A way whose angle is known has this straightness, but for a line: the integral of the angle (trapezium rule), at places within it.
std::vector<double> straightness_from(const Curve& angle, const std::vector<double>& places) {
    constexpr double um_of_urad_mm = 1e-3;
    std::vector<double> sums(angle.x.size());
    for (std::size_t i = 1; i < sums.size(); ++i)
        sums[i] = sums[i - 1] + um_of_urad_mm * (angle.y[i] + angle.y[i - 1]) / 2 * (angle.x[i] - angle.x[i - 1]);
    std::vector<double> values;
    for (const double place : places) {
        const auto above = std::clamp<std::ptrdiff_t>(std::lower_bound(angle.x.begin(), angle.x.end(), place) - angle.x.begin(), 1,
                                                      std::ssize(angle.x) - 1);
        const auto i = static_cast<std::size_t>(above);
        const double share = (place - angle.x[i - 1]) / (angle.x[i] - angle.x[i - 1]);
        values.push_back(sums[i - 1] + share * (sums[i] - sums[i - 1]));
    }
    return values;
}

/// Sums of squares of a straightness and of what the integral of an angle leaves of it, whichever sign the angle has.
struct Misfit {
    double left = 0, all = 0;
};

std::optional<Misfit> misfit_of(const Curve& straightness, const Curve& angle) {
    std::vector<double> x, y;
    for (std::size_t i = 0; i < straightness.x.size(); ++i) {
        if (straightness.x[i] < angle.x.front() || straightness.x[i] > angle.x.back()) continue;
        x.push_back(straightness.x[i]);
        y.push_back(straightness.y[i]);
    }
    if (x.size() < fewest_on_curve) return std::nullopt;
    auto expected = straightness_from(angle, x);
    take_slope_out(x, y);
    take_slope_out(x, expected);
    double as_is = 0, turned = 0;
    Misfit misfit;
    for (std::size_t i = 0; i < x.size(); ++i) {
        as_is += (y[i] - expected[i]) * (y[i] - expected[i]);
        turned += (y[i] + expected[i]) * (y[i] + expected[i]);
        misfit.all += y[i] * y[i];
    }
    misfit.left = std::min(as_is, turned);
    return misfit;
}

/// The rotation that bends a line along `axis` in `direction`: about the third axis (ISO 230-1:2012 Annex A [from memory]).
char rotation_of(char direction, char axis) {
    constexpr std::string_view linear = "XYZ", rotary = "ABC";
    for (std::size_t i = 0; i < linear.size(); ++i)
        if (linear[i] != direction && linear[i] != axis) return rotary[i];
    return ' ';
}

/// The curves of one axis in one state: both straightnesses and the angles that belong to them.
struct Planes {
    std::vector<std::pair<char, Curve>> straightness, angle;  ///< by the rotation they belong to
};

Planes planes_of(const document::Document& document, const Evaluation& evaluation, const std::string& axis, const std::string& state) {
    Planes planes;
    for (std::size_t i = 0; i < evaluation.series.size() && i < document.series.size(); ++i) {
        const SeriesEvaluation& series = evaluation.series[i];
        if (series.error.axis != axis || series.state != state) continue;
        const auto curve = curve_of(series, i);
        if (curve && series.kind == SeriesKind::Straightness)
            planes.straightness.emplace_back(rotation_of(series.error.direction, axis[0]), *curve);
        else if (curve && series.kind == SeriesKind::Angle)
            planes.angle.emplace_back(series.error.direction, *curve);
    }
    return planes;
}

/// By choice. Angles and straightness of real ways agree only about so, for a carriage has a length.
constexpr double fits_plane = 0.1, times_better = 5;  // of the sum of squares: 32 % of the height, and 2.2 times less of it

void add_mixed_up_planes(std::vector<BeforeLeaving>& lines, const document::Document& document, const Planes& planes) {
    Misfit as_written, exchanged;
    std::size_t pairs = 0;
    for (const auto& [rotation, curve] : planes.straightness)
        for (const auto& [about, angle] : planes.angle) {
            if (about == document.series[curve.place].error.axis[0] - 'X' + 'A') continue;  // roll bends nothing
            const auto misfit = misfit_of(curve, angle);
            if (!misfit) return;
            Misfit& sum = about == rotation ? as_written : exchanged;
            sum.left += misfit->left;
            sum.all += misfit->all;
            pairs += 1;
        }
    // One straightness alone can look like the wrong angle by chance; both planes hardly do.
    constexpr std::size_t both = 4;
    if (pairs != both || !(exchanged.left < fits_plane * exchanged.all) || as_written.left < times_better * exchanged.left) return;
    std::vector<std::string> ids;
    for (const auto* curves : {&planes.straightness, &planes.angle})
        for (const auto& entry : *curves) ids.push_back(document.series[entry.second.place].id);
    lines.push_back({FindingCode::PlanesMixedUp,
                     "pitch and yaw, or both straightnesses, look exchanged: each straightness is the integral of the other plane's angle",
                     fmt::format("series {} (/series/{})", fmt::join(ids, ", "), planes.straightness.front().second.place),
                     fmt::format("{:.0f} % of the height left over so, {:.0f} % as written; told below 32 % and 2.2 times less, by choice",
                                 100 * std::sqrt(exchanged.left / exchanged.all), 100 * std::sqrt(as_written.left / as_written.all)),
                     "compare with the set-up of the optics for each series; correct the document, not the readings"});
}

}  // namespace

void add_plane_concerns(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation) {
    std::vector<std::pair<std::string, std::string>> seen;
    for (const SeriesEvaluation& series : evaluation.series) {
        const std::pair key{series.error.axis, series.state};
        if (series.kind != SeriesKind::Straightness || series.error.axis_is_rotary() ||
            std::string_view("XYZ").find(key.first) == std::string_view::npos || std::find(seen.begin(), seen.end(), key) != seen.end())
            continue;
        seen.push_back(key);
        add_mixed_up_planes(lines, document, planes_of(document, evaluation, key.first, key.second));
    }
}

}  // namespace wayfolio::evaluate
