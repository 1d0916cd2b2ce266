#include "report/blocks/plots/plots.hpp"

#include "report/words/names.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

bool is_one_run_each_way(const SeriesView& view) {
    const auto& runs = view.series.runs;
    return view.evaluation.kind == evaluate::SeriesKind::Positioning && view.evaluation.source != evaluate::Source::Stated &&
           runs.size() == 2 && runs[0].approach != runs[1].approach;
}

/// The largest and the smallest of a column, printed; dashes where it holds nothing.
std::pair<Text, Text> extremes_of(const SeriesView& view, std::vector<std::optional<Deviation>> column, int decimals) {
    std::erase(column, std::nullopt);
    if (column.empty()) return {Text(no_value), Text(no_value)};
    const auto [least, most] = std::ranges::minmax(column);
    const auto printed = [&](const std::optional<Deviation>& value) { return Text().strong(number_of(view.shown, *value, decimals)); };
    return {printed(most), printed(least)};
}

void add_extremes(OneRun& made, const SeriesView& view, int decimals) {
    const int of_readings = view.reading_shown.reading_decimals.value_or(view.reading_shown.decimals);
    std::array<std::vector<std::optional<Deviation>>, 3> columns;
    std::optional<Deviation> reversal;
    for (const evaluate::TargetEvaluation& target : view.evaluation.targets) {
        columns[0].push_back(target.one_way.positive.mean);
        columns[1].push_back(target.one_way.negative.mean);
        columns[2].push_back(target.mean);
        if (target.reversal && (!reversal || units::abs(*target.reversal) > units::abs(*reversal))) reversal = target.reversal;
    }
    for (std::size_t i = 0; i < columns.size(); ++i)
        std::tie(made.largest.at(i), made.smallest.at(i)) =
            extremes_of(view, columns.at(i), i + 1 < columns.size() ? of_readings : decimals);
    if (reversal) made.largest.back() = Text().strong(number_of(view.shown, *reversal, decimals));
}

}  // namespace

std::optional<OneRun> one_run(const Subject& subject, const SeriesView& view, int decimals) {
    if (!is_one_run_each_way(view)) return std::nullopt;
    OneRun made{.plot = judged_plot(subject, view)};
    made.plot.series_id = "one-run-" + view.series.id;
    if (mean_curve_of(made.plot).empty()) return std::nullopt;
    // A needs more runs: the limit that can be judged here is that on E.
    if (!made.plot.limit) made.plot.limit = limit_of(view.series, "E", made.plot, view.shown);
    const auto [least, most] = std::ranges::minmax(mean_curve_of(made.plot), {}, &std::pair<Position, Deviation>::second);
    for (const evaluate::TargetEvaluation& target : view.evaluation.targets) {
        const Text mean(target.mean ? number_of(view.shown, *target.mean, decimals) : no_value);
        const bool extreme = target.mean && (*target.mean == least.second || *target.mean == most.second);
        made.means.push_back(extreme ? emphasised(mean) : mean);
    }
    add_extremes(made, view, decimals);
    for (const Bracket& bracket : made.plot.brackets) {
        const auto value = value_of_parameter(view.evaluation, bracket.symbol);
        if (value) made.measured.emplace_back(bracket.symbol, Text(result_number(view.shown, *value, view.shown.decimals)));
    }
    made.not_evaluated = marked("*s*, *R* and *A* need two runs in each approach: not evaluated.");
    return made;
}

}  // namespace wayfolio::report
