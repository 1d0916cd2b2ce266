#include "report/blocks/plots/plots.hpp"

#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>
#include <functional>

namespace wayfolio::report {
namespace {

using evaluate::SeriesEvaluation;
using evaluate::SeriesKind;
using evaluate::TargetEvaluation;

/// What is taken off every reading at a position before it is drawn.
using Baseline = std::function<Deviation(const Position&)>;

Deviation none_of(const DeviationUnit& unit) { return {0.0, unit}; }

Baseline straightness_baseline(const SeriesEvaluation& evaluation) {
    const evaluate::ReferenceLineResult* const found = evaluate::headline_line(evaluation);
    if (found == nullptr) return [unit = evaluation.unit](const Position&) { return none_of(unit); };
    return [line = *found, rotary = evaluation.position_unit.dimension == units::Dimension::Angle](const Position& at) {
        // The slope is in µm per metre of travel, positions count from the axis's own zero.
        const double metres = rotary ? 0.0 : at.in(units::position_metre);
        const units::Length rise = units::micrometre(line.slope.in(units::micrometre_per_metre) * metres);
        return line.offset.dimension() == units::Dimension::Length ? line.offset + Deviation(rise) : line.offset;
    };
}

Baseline angle_baseline(const SeriesEvaluation& evaluation) {
    Deviation sum = none_of(evaluation.unit);
    double count = 0;
    for (const TargetEvaluation& target : evaluation.targets) {
        for (const Approach approach : document::both_approaches) {
            const auto& mean = target.one_way[approach].mean;
            if (!mean) continue;
            sum = sum + *mean;
            ++count;
        }
    }
    const Deviation zero = count > 0 ? sum / count : sum;
    return [zero](const Position&) { return zero; };
}

Baseline baseline_of(const SeriesEvaluation& evaluation) {
    if (evaluation.kind == SeriesKind::Angle) return angle_baseline(evaluation);
    if (evaluation.kind == SeriesKind::Straightness || evaluation.kind == SeriesKind::AngleSteps) return straightness_baseline(evaluation);
    return [unit = evaluation.unit](const Position&) { return none_of(unit); };
}

void shift(std::optional<Deviation>& value, const Deviation& by) {
    if (value) value = *value - by;
}

std::vector<TargetEvaluation> drawn_targets(const SeriesEvaluation& evaluation, const Baseline& baseline) {
    std::vector<TargetEvaluation> targets = evaluation.targets;
    for (TargetEvaluation& target : targets) {
        const Deviation by = baseline(target.position);
        for (const Approach approach : document::both_approaches) shift(target.one_way[approach].mean, by);
        shift(target.mean, by);
    }
    return targets;
}

/// Runs as drawn; angle steps are readings between stations, not heights, so their runs are not drawn.
std::vector<RunCurve> drawn_runs(const document::Series& series, const SeriesEvaluation& evaluation, const Baseline& baseline) {
    std::vector<RunCurve> curves;
    if (evaluation.kind == SeriesKind::AngleSteps) return curves;
    for (const document::Run& run : series.runs) {
        RunCurve curve{.approach = run.approach};
        for (const TargetEvaluation& target : evaluation.targets) {
            std::optional<Deviation> reading = run.used(target.index);
            if (reading) reading = *reading + evaluation.air_at(target.position);
            shift(reading, baseline(target.position));
            curve.readings.push_back(reading);
        }
        curves.push_back(std::move(curve));
    }
    return curves;
}

/// Level of a setting target on the drawn curves: the mean of its direction, for A with 2 s added or taken off.
std::optional<Deviation> drawn_level(const TargetEvaluation& target, const evaluate::SetBy& set, const std::string& parameter) {
    const auto& mean = target.mean_of(set.approach);
    if (!mean) return std::nullopt;
    if (parameter.substr(0, 1) != "A") return mean;
    const auto& s = target.one_way[set.approach.value_or(Approach::Negative)].s;
    if (!s) return std::nullopt;
    return set.side == evaluate::Side::Max ? *mean + *s * 2.0 : *mean - *s * 2.0;
}

/// Ticks and bracket of one parameter that is a range.
void measure(DeviationPlot& plot, const SeriesEvaluation& evaluation, const std::string& name, const std::string& symbol) {
    const evaluate::Parameter* parameter = evaluate::find_parameter(evaluation, name);
    if (!parameter || !evaluate::value_of(parameter->value)) return;
    std::vector<Deviation> levels;
    for (const evaluate::SetBy& set : parameter->set_by) {
        const auto level = drawn_level(plot.targets[set.index], set, name);
        if (!level) continue;
        plot.ticks.push_back({.target = set.index, .level = *level, .above = set.side == evaluate::Side::Max, .symbol = symbol});
        levels.push_back(*level);
    }
    if (levels.size() < 2) return;
    const auto [low, high] = std::ranges::minmax(levels);
    plot.brackets.push_back({.symbol = symbol, .low = low, .high = high});
}

/// A parameter of both directions, else that of each; without a symbol in the figure.
std::vector<std::pair<std::string, std::string>> both_or_each_way(const SeriesEvaluation& evaluation, const std::string& parameter) {
    if (value_of_parameter(evaluation, parameter)) return {{parameter, ""}};
    return {{in_direction(parameter, Approach::Positive), ""}, {in_direction(parameter, Approach::Negative), ""}};
}

/// Parameters measured in the figure, from the innermost bracket out.
std::vector<std::pair<std::string, std::string>> measured_parameters(const document::Series& series, const SeriesEvaluation& evaluation) {
    const std::string headline = headline_parameter(series, evaluation);
    switch (evaluation.kind) {
        case SeriesKind::Positioning: break;
        case SeriesKind::Straightness:
        case SeriesKind::AngleSteps: return both_or_each_way(evaluation, "straightness");
        case SeriesKind::Angle: return both_or_each_way(evaluation, "angle");
    }
    if (const auto approach = direction_of(headline)) return {{in_direction("E", *approach), "E"}, {in_direction("A", *approach), "A"}};
    return {{"M", "M"}, {"E", "E"}, {"A", "A"}};
}

std::string told(const Shown& shown, const Deviation& value) {
    return with_unit(result_number(shown, value, shown.decimals), shown.unit.symbol);
}

/// "starts at 0.4 µm, ends at 7.7 µm": the trend in one clause.
std::string trend(const std::vector<std::pair<Position, Deviation>>& curve, const Shown& shown) {
    return "The mean starts at " + told(shown, curve.front().second) + " and ends at " + told(shown, curve.back().second) + ".";
}

std::string extremes(const std::vector<std::pair<Position, Deviation>>& curve, const Shown& shown) {
    const auto [lowest, highest] = std::ranges::minmax_element(curve, {}, [](const auto& p) { return p.second; });
    return "Its highest mean is " + told(shown, highest->second) + " at " + position_text(shown, highest->first) + ", its lowest " +
           told(shown, lowest->second) + " at " + position_text(shown, lowest->first) + ".";
}

/// The strips below the deviations, by their extremes.
std::string reversal_words(const std::vector<evaluate::TargetEvaluation>& targets, const Shown& shown) {
    std::vector<std::pair<Position, Deviation>> reversals;
    for (const TargetEvaluation& target : targets)
        if (target.reversal) reversals.emplace_back(target.position, *target.reversal);
    if (reversals.empty()) return {};
    const auto [least, most] = std::ranges::minmax_element(reversals, {}, [](const auto& one) { return one.second; });
    const auto said = [&](const auto& one) {
        return value_text(shown, one.second, shown.statistics_decimals) + " at " + position_text(shown, one.first);
    };
    return "from " + said(*least) + " to " + said(*most) + ".";
}

std::string repeatability_words(const std::vector<evaluate::TargetEvaluation>& targets, const Shown& shown) {
    std::string text;
    for (const Approach approach : document::both_approaches) {
        const evaluate::TargetEvaluation* most = nullptr;
        for (const TargetEvaluation& target : targets)
            if (target.one_way[approach].R && (most == nullptr || *target.one_way[approach].R > *most->one_way[approach].R)) most = &target;
        if (most == nullptr) continue;
        text += (text.empty() ? "at most " : " and ") +
                value_text(shown, *most->one_way[approach].R, shown.statistics_decimals) + " at " + position_text(shown, most->position) +
                (approach == Approach::Positive ? " in positive approach" : " in negative approach");
    }
    return text.empty() ? text : text + ".";
}

std::string runs_words(const document::Series& series) {
    document::ByApproach<std::size_t> runs;
    for (const document::Run& run : series.runs) ++runs[run.approach];
    const auto [positive, negative] = runs;
    if (positive + negative == 0) return "values as stated";
    const auto counted_runs = [](std::size_t count) { return count_word(count) + (count == 1 ? " run" : " runs"); };
    if (positive == 0) return counted_runs(negative) + " in the negative approach";
    if (negative == 0) return counted_runs(positive) + " in the positive approach";
    if (positive == negative) return counted_runs(positive) + " in each approach";
    return count_word(positive) + " positive and " + count_word(negative) + " negative runs";
}

/// What a colleague would say over the phone: quantity, axis, range, the worst places with numbers, the trend.
std::string alternative_text(const document::Document& document, const document::Series& series,
                             const evaluate::SeriesEvaluation& evaluation, const DeviationPlot& plot, const Shown& shown) {
    std::string text = quantity_title(document, series.error) + state_suffix(series.state) + ", against position on axis " +
                       series.error.axis + ": " + std::to_string(plot.targets.size()) + " targets, " + runs_words(series) + ".";
    const auto curve = mean_curve_of(plot);
    if (curve.empty()) return text;
    text += " " + curve_words(curve, shown);
    const std::string headline = headline_parameter(series, evaluation);
    const evaluate::Parameter* parameter = evaluate::find_parameter(evaluation, headline);
    if (parameter && evaluate::value_of(parameter->value)) {
        const std::string symbol = parameter_symbol(headline);
        text += " " + parameter_words(symbol.empty() ? headline : symbol, evaluation.standard) + (symbol.empty() ? "" : " " + symbol) +
                " is " + told(shown, *evaluate::value_of(parameter->value)) + ".";
    }
    if (plot.limit) text += " " + capitalised(plot.limit->short_label.words()) + ".";
    return text;
}

/// A letter for the n-th note of a table: a, b ... z, aa ...
std::string note_letter(std::size_t n) {
    std::string letter;
    for (++n; n > 0; n = (n - 1) / 26) letter.insert(letter.begin(), static_cast<char>('a' + (n - 1) % 26));
    return letter;
}

}  // namespace

std::optional<LimitLines> limit_of(const document::Series& series, const std::string& parameter, const DeviationPlot& plot,
                                   const Shown& shown) {
    if (plot.brackets.empty()) return std::nullopt;
    const auto tolerance = std::ranges::find(series.tolerances, parameter, &document::Tolerance::parameter);
    if (tolerance == series.tolerances.end()) return std::nullopt;
    const std::string symbol = parameter_symbol(parameter);
    // The bracket of the limited parameter; a limit on E is centred on the extremes of E.
    const auto own = std::ranges::find(plot.brackets, symbol, &Bracket::symbol);
    if (own == plot.brackets.end()) return std::nullopt;
    const std::string number = with_unit(limit_number(shown, tolerance->limit), shown.unit.symbol);
    Text label("limit");
    if (!symbol.empty()) label.plain(" for ").symbol(symbol).plain(":");
    label.plain(" " + number + " between the two lines");
    return LimitLines{
        .width = tolerance->limit, .centre = (own->low + own->high) / 2.0, .label = label, .short_label = Text("limit " + number)};
}

DeviationPlot deviation_plot(const document::Document& document, const document::Series& series, const SeriesEvaluation& evaluation,
                             const Shown& shown) {
    const Baseline baseline = baseline_of(evaluation);
    DeviationPlot plot{.series_id = series.id,
                       .quantity = "Deviation",
                       .axis_name = series.error.axis,
                       .unit = shown.unit,
                       .position_unit = shown.position,
                       .reading_decimals = shown.reading_decimals.value_or(shown.decimals)};
    plot.targets = drawn_targets(evaluation, baseline);
    plot.runs = drawn_runs(series, evaluation, baseline);
    for (const ReadingNote& note : reading_notes(series, evaluation)) {
        const auto& value = series.runs[note.run].deviations[note.target];
        if (!note.excluded_because || !value || evaluation.kind == SeriesKind::AngleSteps) continue;
        const Position at = series.targets[note.target].position;
        plot.excluded.push_back({.position = at, .value = *value + evaluation.air_at(at) - baseline(at), .letter = note.letter});
    }
    if (series.trace) {
        for (const auto& sample : series.trace->samples)
            plot.trace.push_back({sample.position, sample.value + evaluation.air_at(sample.position) - baseline(sample.position)});
    }
    if (evaluation.trace) {
        plot.trace.reserve(plot.trace.size() + evaluation.trace->outline.size());
        for (const auto& sample : evaluation.trace->outline)
            plot.trace.push_back({sample.position, sample.value - baseline(sample.position)});
    }
    for (const auto& [name, symbol] : measured_parameters(series, evaluation)) measure(plot, evaluation, name, symbol);
    plot.bands = std::ranges::any_of(plot.targets, [](const auto& t) { return t.one_way.positive.s || t.one_way.negative.s; });
    // Where single readings, means and bands coincide (one run), the runs would only thicken the line.
    if (!plot.bands) plot.runs.clear();
    plot.limit = limit_of(series, headline_parameter(series, evaluation), plot, shown);
    plot.alternative = alternative_text(document, series, evaluation, plot, shown);
    const std::string of = " of " + series.error.text() + state_suffix(series.state) + ", at each target: ";
    if (const std::string words = reversal_words(plot.targets, shown); !words.empty()) plot.reversal_alternative = "Reversal" + of + words;
    if (const std::string words = repeatability_words(plot.targets, shown); !words.empty())
        plot.repeatability_alternative = "Repeatability 4 s" + of + words;
    return plot;
}

DeviationPlot judged_plot(const Subject& subject, const SeriesView& view) {
    DeviationPlot plot = deviation_plot(subject.document, view.series, view.evaluation, view.shown);
    const auto* decision =
        find_decision(subject.evaluation, view.series.id, headline_parameter(view.series, view.evaluation));
    if (decision) plot.alternative += " Verdict: " + verdict_of(decision, view.shown).word.words() + ".";
    return plot;
}

std::string curve_words(const std::vector<std::pair<Position, Deviation>>& curve, const Shown& shown) {
    return extremes(curve, shown) + " " + trend(curve, shown);
}

std::vector<ReadingNote> reading_notes(const document::Series& series, const SeriesEvaluation& evaluation) {
    std::vector<ReadingNote> notes;
    for (const TargetEvaluation& target : evaluation.targets) {
        for (const Approach approach : document::both_approaches) {
            for (std::size_t run = 0; run < series.runs.size(); ++run) {
                if (series.runs[run].approach != approach || target.index >= series.runs[run].deviations.size()) continue;
                // The first station of angle steps has no reading; nothing is missing there.
                if (evaluation.kind == SeriesKind::AngleSteps && target.index == 0) continue;
                const document::Exclusion* exclusion = series.runs[run].exclusion(target.index);
                if (!exclusion && series.runs[run].deviations[target.index]) continue;
                notes.push_back(
                    {run, target.index, note_letter(notes.size()), exclusion ? std::optional(exclusion->reason) : std::nullopt});
            }
        }
    }
    return notes;
}

}  // namespace wayfolio::report
