#include "report/words/passages.hpp"

#include "report/words/judgements.hpp"
#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

using evaluate::ParameterUncertainty;

/// "R (EXX)", "EYX": a result by its symbols.
Text symbols_of(const SeriesView& view, const std::string& parameter) {
    const std::string symbol = parameter_symbol(parameter), error = view.series.error.text();
    return symbol.empty() ? Text(error) : Text().symbol(symbol).plain(" (" + error + ")");
}

/// The uncertainties that stand behind what the first page shows: of values with a limit, and of those that speak for a quantity.
struct ShownU {
    const SeriesView* view;
    const ParameterUncertainty* entry;
};
std::vector<ShownU> shown_uncertainties(const Subject& subject, const std::vector<SeriesView>& views) {
    std::vector<ShownU> shown;
    for (const SeriesView& view : views) {
        const std::string headline = headline_parameter(view.series, view.evaluation);
        for (const ParameterUncertainty& entry : subject.evaluation.uncertainty)
            if (entry.series == view.series.id && !entry.axes && !entry.length_mm &&
                (entry.parameter == headline || find_decision(subject.evaluation, entry.series, entry.parameter)))
                shown.push_back({&view, &entry});
    }
    return shown;
}

/// "The coverage of U is about 90 to 92 % for R (EXX) and EYX, not 95 %"
Text coverage_sentence(const std::vector<ShownU>& all, const units::NumberStyle& style) {
    constexpr double enough = 0.945;  // rounds to 95 %
    std::vector<ShownU> short_of_it;
    std::ranges::copy_if(all, std::back_inserter(short_of_it),
                         [](const ShownU& one) { return one.entry->coverage < enough && !one.entry->raised_to_capability; });
    if (short_of_it.empty()) return {};
    const auto coverage = [](const ShownU& one) { return one.entry->coverage; };
    const auto [least, most] = std::ranges::minmax(short_of_it, {}, coverage);
    const std::string low = units::number(100 * coverage(least), 0, style), high = units::number(100 * coverage(most), 0, style);
    Text text("The coverage of ");
    text.symbol("U").plain(" is about " + with_unit(low == high ? low : low + " to " + high, "%") + " for ");
    constexpr std::size_t most_named = 4;
    if (short_of_it.size() > most_named) text.plain(count_word(short_of_it.size()) + " values");
    for (std::size_t i = 0; short_of_it.size() <= most_named && i < short_of_it.size(); ++i)
        text.plain(i == 0 ? "" : i + 1 == short_of_it.size() ? " and " : ", ")
            .append(symbols_of(*short_of_it[i].view, short_of_it[i].entry->parameter));
    return text.plain(", not " + with_unit("95", "%"));
}

/// "Scatter makes E (EXX) too large, by up to 0.9 µm, and three more results: U alone does not cover that". The worst one is named.
Text scatter_sentence(const Subject& subject, const std::vector<SeriesView>& views) {
    constexpr double noticeable = 0.1;
    double worst = noticeable;
    const ParameterUncertainty* named = nullptr;
    const SeriesView* of = nullptr;
    std::size_t more = 0;
    for (const SeriesView& view : views)
        for (const auto& entry : subject.evaluation.uncertainty) {
            if (entry.series != view.series.id || !entry.interval || direction_of(entry.parameter)) continue;
            const double part = entry.interval->bias.in(view.shown.unit) / entry.expanded.in(view.shown.unit);
            if (!(part > noticeable)) continue;
            ++more;
            if (!(part > worst)) continue;
            worst = part;
            named = &entry;
            of = &view;
        }
    if (!named) return {};
    Text text = Text("Random variation makes ").append(symbols_of(*of, named->parameter));
    text.plain(" too large, by up to " +
               value_text(of->shown, named->interval->bias, result_decimals(of->shown, std::nullopt, named->expanded)));
    if (more > 1) text.plain(", and " + count_word(more - 1) + (more == 2 ? " more result" : " more results"));
    return text.plain(": ").symbol("U").plain(" alone does not cover that");
}

/// "Two expected contributors are missing in U: ..."; nothing where no U was computed of contributors.
Text contributors_sentence(const Subject& subject, const std::vector<ShownU>& all) {
    if (std::ranges::none_of(all, [](const ShownU& one) { return one.entry->source == evaluate::Source::Runs; })) return {};
    std::vector<std::string> missing;
    for (const evaluate::Lack& lack : subject.evaluation.lacking)
        if (lack.purpose == "uncertainty") missing.push_back(lack.what);
    if (missing.empty()) return {};
    constexpr std::size_t most_named = 3;
    const std::size_t count = missing.size();
    if (count > most_named) {
        missing.resize(most_named - 1);
        missing.push_back(count_word(count - missing.size()) + " more");
    }
    return Text(capitalised(count_word(count)) + (count == 1 ? " expected input quantity is" : " expected input quantities are") +
                " missing in ")
        .symbol("U")
        .plain(": " + listed(missing));
}

}  // namespace

std::vector<Weakness> weaknesses(const Subject& subject, const std::vector<SeriesView>& views) {
    std::vector<Weakness> all;
    const auto add = [&](Text sentence, const char* destination) {
        if (!sentence.empty()) all.push_back({std::move(sentence), destination});
    };
    const auto shown = shown_uncertainties(subject, views);
    add(coverage_sentence(shown, style_of(subject)), "uncertainty");
    add(scatter_sentence(subject, views), scatter_anchor);
    add(Text(failed_checks(subject)), setup_anchor);
    add(contributors_sentence(subject, shown), lacking_anchor);
    add(known_bias_sentence(subject, views), "uncertainty");
    return all;
}

}  // namespace wayfolio::report
