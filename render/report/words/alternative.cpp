#include "report/words/alternative.hpp"

#include "report/words/names.hpp"
#include "report/blocks/plots/plots.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

/// "starts at 0.4 µm, ends at 7.7 µm": the trend in one clause.
std::string trend(const std::vector<std::pair<Position, Deviation>>& curve, const Shown& shown) {
    return "The mean starts at " + value_text(shown, curve.front().second, shown.decimals) + " and ends at " +
           value_text(shown, curve.back().second, shown.decimals) + ".";
}

std::string extremes(const std::vector<std::pair<Position, Deviation>>& curve, const Shown& shown) {
    const auto [lowest, highest] = std::ranges::minmax_element(curve, {}, [](const auto& p) { return p.second; });
    return "Its highest mean is " + value_text(shown, highest->second, shown.decimals) + " at " + position_text(shown, highest->first) +
           ", its lowest " + value_text(shown, lowest->second, shown.decimals) + " at " + position_text(shown, lowest->first) + ".";
}

std::string runs_words(const document::Series& series) {
    const auto count = [&](Approach approach) { return std::ranges::count(series.runs, approach, &document::Run::approach); };
    const auto positive = static_cast<std::size_t>(count(Approach::Positive)), negative = static_cast<std::size_t>(count(Approach::Negative));
    if (positive + negative == 0) return "values as stated";
    if (positive == 0) return count_word(negative) + " run" + (negative == 1 ? "" : "s") + " in the negative direction";
    if (negative == 0) return count_word(positive) + " run" + (positive == 1 ? "" : "s") + " in the positive direction";
    if (positive == negative) return count_word(positive) + " run" + (positive == 1 ? "" : "s") + " in each direction";
    return count_word(positive) + " positive and " + count_word(negative) + " negative runs";
}

}  // namespace

std::string alternative_text(const document::Document& document, const document::Series& series, const evaluate::SeriesEvaluation& evaluation,
                             const DeviationPlot& plot, const Shown& shown) {
    std::string text = quantity_title(document, series.error) + state_suffix(series.state) + ", against position on axis " + series.error.axis + ": " +
                       std::to_string(plot.targets.size()) + " targets, " + runs_words(series) + ".";
    const auto curve = mean_curve_of(plot);
    if (curve.empty()) return text;
    text += " " + extremes(curve, shown) + " " + trend(curve, shown);
    const std::string headline = headline_parameter(series, evaluation);
    const evaluate::Parameter* parameter = evaluate::find_parameter(evaluation, headline);
    if (parameter && evaluate::value_of(parameter->value)) {
        const std::string symbol = parameter_symbol(headline);
        text += " " + parameter_words(symbol.empty() ? headline : symbol, evaluation.standard) + (symbol.empty() ? "" : " " + symbol) + " is " +
                value_text(shown, *evaluate::value_of(parameter->value), shown.decimals) + ".";
    }
    if (plot.limit) text += " " + capitalised(plot.limit->short_label.words()) + ".";
    return text;
}

}  // namespace wayfolio::report
