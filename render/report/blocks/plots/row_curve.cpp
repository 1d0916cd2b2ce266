#include "report/blocks/plots/plots.hpp"

#include "report/words/names.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::report {
namespace {

using evaluate::SeriesKind;
using evaluate::TargetEvaluation;
using Form = RowCurve::Form;

Form form_of(const evaluate::SeriesEvaluation& evaluation, const std::string& symbol) {
    if (symbol == "B") return Form::Stems;
    if (evaluation.kind != SeriesKind::Positioning) return Form::Mean;
    return symbol == "A" ? Form::Band : symbol == "E" ? Form::Means : symbol == "R" ? Form::Stems : Form::Mean;
}

/// The outer edges of mean ± 2 s, of one direction or of both.
void add_band(RowCurve& curve, const TargetEvaluation& target, const std::optional<Approach>& of) {
    std::optional<Deviation> upper, lower;
    for (const Approach approach : document::both_approaches) {
        const evaluate::OneWay& way = target.one_way[approach];
        if ((of && *of != approach) || !way.mean || !way.s) continue;
        const Deviation over = *way.mean + *way.s * 2.0, under = *way.mean - *way.s * 2.0;
        if (!upper || over > *upper) upper = over;
        if (!lower || under < *lower) lower = under;
    }
    if (!upper) return;
    curve.first.emplace_back(target.position, *upper);
    curve.second.emplace_back(target.position, *lower);
}

void add_point(RowCurve::Points& points, const TargetEvaluation& target, const std::optional<Deviation>& level) {
    if (level) points.emplace_back(target.position, *level);
}

std::optional<Deviation> stem_of(const TargetEvaluation& target, const std::string& symbol, const std::optional<Approach>& of) {
    if (symbol == "B") return target.reversal;
    return of ? target.one_way[*of].R : target.R;
}

/// The level of a curve at a place: that of its point there, or of the straight line between its neighbours.
std::optional<Deviation> level_at(const RowCurve::Points& points, const Position& at) {
    for (std::size_t i = 0; i < points.size(); ++i) {
        const auto& [place, level] = points[i];
        if (place == at) return level;
        if (i == 0 || !(points[i - 1].first < at) || !(at < place)) continue;
        const double share = (at - points[i - 1].first) / (place - points[i - 1].first);
        return points[i - 1].second + (level - points[i - 1].second) * share;
    }
    return std::nullopt;
}

void add_setting(RowCurve& curve, const RowCurve::Points& on, const Position& at) {
    if (const auto level = level_at(on, at)) curve.settings.emplace_back(at, *level);
}

void add_settings(RowCurve& curve, const evaluate::Parameter& parameter) {
    for (const evaluate::SetBy& set : parameter.set_by) {
        const bool second = curve.form == Form::Band ? set.side == evaluate::Side::Min
                                                     : curve.form == Form::Means && set.approach == Approach::Negative;
        add_setting(curve, second && !curve.second.empty() ? curve.second : curve.first, set.position);
    }
}

std::string said(const Shown& shown, const std::pair<Position, Deviation>& point) {
    return value_text(shown, point.second, shown.statistics_decimals) + " at " + position_text(shown, point.first);
}

}  // namespace

RowCurve row_curve(const DeviationPlot& plot, const evaluate::SeriesEvaluation& evaluation, std::string_view parameter,
                   const evaluate::Decision* local) {
    const std::string symbol = parameter_symbol(parameter);
    const auto of = direction_of(parameter);
    RowCurve curve{.form = form_of(evaluation, symbol)};
    if (curve.form == Form::Stems) curve.scale = symbol;
    if (curve.form == Form::Mean && !of) curve.first = mean_curve_of(plot);
    for (const TargetEvaluation& target : plot.targets) switch (curve.form) {
            case Form::Band: add_band(curve, target, of); break;
            case Form::Means:
                if (of != Approach::Negative) add_point(curve.first, target, target.one_way.positive.mean);
                if (of != Approach::Positive) add_point(curve.second, target, target.one_way.negative.mean);
                break;
            case Form::Stems: add_point(curve.first, target, stem_of(target, symbol, of)); break;
            case Form::Mean:
                if (of) add_point(curve.first, target, target.one_way[*of].mean);
                break;
        }
    const evaluate::Parameter* found = evaluate::find_parameter(evaluation, parameter);
    if (found && evaluate::value_of(found->value)) add_settings(curve, *found);
    if (local && local->length_mm) {
        const auto window = std::ranges::find_if(evaluation.local, [&](const evaluate::LocalStraightness& one) {
            constexpr double rounding = 1e-6;
            return std::abs(one.window.in(units::millimetre) - *local->length_mm) < rounding &&
                   (!local->reference_line || one.reference == *local->reference_line);
        });
        if (window != evaluation.local.end())
            for (const Position& end : {window->from, window->to}) add_setting(curve, curve.first, end);
    }
    return curve;
}

std::string row_curve_words(const RowCurve& curve, const Shown& shown) {
    if (curve.form == Form::Mean) return curve_words(curve.first, shown);
    RowCurve::Points all = curve.first;
    all.insert(all.end(), curve.second.begin(), curve.second.end());
    const auto [lowest, highest] = std::ranges::minmax_element(all, {}, [](const auto& point) { return point.second; });
    const std::string range = ": from " + said(shown, *lowest) + " to " + said(shown, *highest) + ".";
    switch (curve.form) {
        case Form::Band: return "Band of mean ± 2 s" + range;
        case Form::Means: return "Means of each approach" + range;
        case Form::Stems: return (curve.scale == "B" ? "Reversal" : "Repeatability") + std::string(" at each target") + range;
        case Form::Mean: break;
    }
    return {};
}

}  // namespace wayfolio::report
