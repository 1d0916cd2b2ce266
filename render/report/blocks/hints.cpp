#include "report/blocks/blocks.hpp"

#include "report/words/names.hpp"

#include <algorithm>
#include <array>

namespace wayfolio::report {
namespace {

using evaluate::SeriesHints;

/// A hint that was raised, or one test of the table.
struct Finding {
    std::string clause;     ///< for the lead: "EXX drifts from run to run"
    std::string words;      ///< the whole of it, with its size
    std::string statistic;
    double p, level;
};

/// Numbers of the hints are µm or µrad; a page shows them in the layout's unit.
struct Teller {
    const SeriesView& view;
    const SeriesHints& hints;

    bool several_states;

    /// "EXX", or "EXX as left" where the error was measured in several states.
    [[nodiscard]] std::string symbol() const {
        const std::string& state = view.series.state;
        return view.series.error.text() + (several_states && !state.empty() ? " " + state_words(state) : std::string());
    }
    [[nodiscard]] std::string titled() const { return series_name(view.series); }
    [[nodiscard]] std::string size(double base) const {
        const DeviationUnit unit = view.evaluation.unit.dimension == units::Dimension::Angle ? DeviationUnit(units::microradian)
                                                                                             : DeviationUnit(units::micrometre);
        const double value = Deviation(base, unit).in(view.shown.unit);
        return (value > 0 ? "+" : "") +
               with_unit(result_number(view.shown, Deviation(base, unit), view.shown.statistics_decimals), view.shown.unit.symbol);
    }
    /// A growth with the length, in µm/m: as many µin/in.
    [[nodiscard]] std::string growth(double um_per_m) const {
        constexpr int places = 2;
        const bool inches = view.shown.position == units::position_inch;
        return (um_per_m > 0 ? "+" : "") + with_unit(units::number(um_per_m, units::decimals_that_show(um_per_m, places), view.shown.style),
                                                     inches ? "µin/in" : units::micrometre_per_metre.symbol);
    }
    [[nodiscard]] std::string place(double natural) const {
        const bool rotary = view.series.error.axis_is_rotary();
        const double value = Position(natural, rotary ? units::position_degree : units::position_millimetre).in(view.shown.position);
        const int decimals = view.shown.position == units::position_inch ? 2 : 1;
        return with_unit(units::number(value, decimals, view.shown.style), view.shown.position.symbol);
    }
    [[nodiscard]] std::string run(std::size_t run) const { return run_words(view.series, run); }
};

void tell_runs(std::vector<Finding>& found, const Teller& t) {
    const double level = t.hints.level;
    if (const auto* drift = evaluate::value_of(t.hints.drift); drift && drift->raised)
        found.push_back({t.symbol() + " drifts from run to run",
                         "The readings drift by " + t.size(drift->change) + " from the first run to the last.",
                         "Student’s t of the slope over the runs", drift->p, level});
    if (const auto* growth = evaluate::value_of(t.hints.growth); growth && growth->raised)
        found.push_back({t.symbol() + " grows from run to run",
                         "The axis grows by " + t.growth(growth->change) + " from the first run to the last.",
                         "Student’s t of the slope over the runs", growth->p, level});
    if (const auto* apart = evaluate::value_of(t.hints.apart); apart && apart->raised)
        found.push_back({"one run of " + t.symbol() + " differs from the others",
                         capitalised(t.run(apart->run)) + " differs by " + t.size(apart->by) + " from the others.",
                         "Student’s t against the other runs, Bonferroni", apart->p, level});
    if (const auto* jump = evaluate::value_of(t.hints.jump); jump && jump->raised)
        found.push_back({"the runs of " + t.symbol() + " jump",
                         "From " + t.run(jump->run) + " on all runs stand " + t.size(jump->by) + " off those before.",
                         "Student’s t of a step in the run means, Bonferroni", jump->p, level});
}

void tell_readings(std::vector<Finding>& found, const Teller& t) {
    const double level = t.hints.level;
    if (const auto* outlier = evaluate::value_of(t.hints.outlier); outlier && outlier->raised)
        found.push_back({t.symbol() + " has a possible outlier",
                         "The reading of " + t.run(outlier->run) + " at target " + std::to_string(outlier->target + 1) + " differs by " +
                             t.size(outlier->by) + " from the mean of its runs. It is not removed.",
                         "farthest reading over the pooled s, Bonferroni", outlier->p, outlier->level});
    if (const auto* swapped = evaluate::value_of(t.hints.swapped); swapped && swapped->raised)
        found.push_back({"two readings of " + t.symbol() + " look exchanged",
                         "The readings of " + t.run(swapped->run) + " at targets " + std::to_string(swapped->targets[0] + 1) + " and " +
                             std::to_string(swapped->targets[1] + 1) + " fit when they are exchanged.",
                         "Student’s t of the best pair, Bonferroni", swapped->p, level});
    if (const auto* missed = evaluate::value_of(t.hints.missed_count); missed && missed->raised)
        found.push_back({"a count of " + t.symbol() + " looks missed",
                         "From target " + std::to_string(missed->target + 1) + " on the readings of " + t.run(missed->run) +
                             (missed->stays ? " and of all later runs" : "") + " stand " + t.size(missed->by) + " off.",
                         "Student’s t of the best place of a step, Bonferroni", missed->p, level});
    if (const auto* periodic = evaluate::value_of(t.hints.periodic); periodic && periodic->raised) {
        std::string words =
            "The means have a periodic error of " + t.size(periodic->amplitude).substr(1) + ", period " + t.place(periodic->period) + ".";
        if (!periodic->aliases.empty())
            words += " At these target positions it cannot be distinguished from period " + t.place(periodic->aliases.front()) + ".";
        found.push_back({t.symbol() + " has a periodic error", words, "spectrum with a straight line, Baluev’s bound", periodic->p, level});
    }
}

std::string probability(double p, units::NumberStyle style) {
    constexpr double smallest = 5e-7;
    if (p < smallest) return "< 10\u207b\u2076";
    constexpr std::array<std::pair<double, int>, 4> decimals{{{0.1, 2}, {0.01, 3}, {0.001, 4}, {0.0001, 5}}};
    for (const auto& [above, places] : decimals)
        if (p >= above) return units::number(p, places, style);
    return units::number(p, 6, style);
}

std::size_t tests_made(const SeriesHints& hints) {
    const auto made = [](const auto&... one) { return (std::size_t{0} + ... + (evaluate::value_of(one) ? 1U : 0U)); };
    return made(hints.drift, hints.growth, hints.apart, hints.jump, hints.outlier, hints.swapped, hints.missed_count, hints.periodic);
}

/// Why tests were not made, each reason once.
std::vector<Text> reasons(const std::vector<Teller>& tellers) {
    std::vector<std::string> seen;
    const auto note = [&](const std::string& test, const auto& hint) {
        if (evaluate::value_of(hint)) return;
        add_once(seen, capitalised(test) + ": " + std::get<evaluate::NotEvaluated>(hint).reason + ".");
    };
    for (const Teller& t : tellers) {
        note("drift", t.hints.drift);
        note("growth", t.hints.growth);
        note("run apart", t.hints.apart);
        note("jump", t.hints.jump);
        note("outlier", t.hints.outlier);
        note("exchange", t.hints.swapped);
        note("count", t.hints.missed_count);
        note("periodic", t.hints.periodic);
        for (const std::size_t run : t.hints.left_out)
            add_once(seen, capitalised(t.run(run)) + " of " + t.titled() + " was left out of these tests: it looks written down wrongly.");
    }
    return {seen.begin(), seen.end()};
}

/// What the machine has and no fault is: told with its size, and not among the hints.
std::vector<Text> properties(const std::vector<Teller>& tellers) {
    std::vector<Text> all;
    for (const Teller& t : tellers)
        if (const auto* closure = evaluate::value_of(t.hints.closure); closure && closure->raised)
            all.emplace_back("The reversal value of " + t.titled() + " at the first target position differs by " +
                             t.size(closure->difference) + " from that at the last: a property of the axis, mostly.");
    return all;
}

Text hints_lead(const std::vector<Finding>& found) {
    if (found.empty())
        return Text("The readings give no hint of drift, of a periodic error, or of a run or reading that differs from the others.");
    constexpr std::size_t most_named = 2;
    std::vector<std::string> clauses;
    for (std::size_t i = 0; i < found.size() && i < most_named; ++i) clauses.push_back(found[i].clause);
    std::string words =
        capitalised(count_word(found.size())) + (found.size() == 1 ? " hint" : " hints") + (found.size() > most_named ? ", first: " : ": ");
    return Text(words + listed(clauses) + ".");
}

Text levels_note(const SeriesHints& one, std::size_t tests, units::NumberStyle style) {
    std::string words =
        "On independent readings the overall false-alarm rate is at most " +
        with_unit(units::number(evaluate::family_level * 100, 0, style), "%") + ", divided among " + std::to_string(tests) + " tests: ";
    if (const auto* outlier = evaluate::value_of(one.outlier))
        words += "three quarters for possible outliers (level " + probability(outlier->level, style) + " each), ";
    words += "the others share " + std::string(evaluate::value_of(one.outlier) ? "the rest" : "a quarter of it") + " (level " +
             probability(one.level, style) +
             " each). A hint is raised if p is below its level; its fault is taken out before the rest is tested again. The p of every "
             "test of every series is in the evaluation that this PDF carries.";
    return Text(words);
}

}  // namespace

Sections hints(const Subject& subject) {
    Sections made;
    const units::NumberStyle style = style_of(subject);
    const auto& views = subject.views;
    std::vector<Teller> tellers;
    for (const SeriesHints& one : subject.evaluation.hints) {
        const SeriesView* view = find_view(views, one.series);
        if (!view) continue;
        const bool several = std::ranges::any_of(views, [&](const SeriesView& other) {
            return other.series.error == view->series.error && other.series.state != view->series.state;
        });
        tellers.push_back({*view, one, several});
    }
    std::size_t count = 0;
    for (const Teller& t : tellers) count += tests_made(t.hints);
    if (count == 0) return made;
    PlainTable raised{.columns = {{"Series", 0.13}, {"Hint", 0.41}, {"statistic", 0.28}, {"p", 0.09, numbers}, {"level", 0.09, numbers}}};
    std::vector<Finding> all;
    for (const Teller& t : tellers) {
        std::vector<Finding> found;
        tell_runs(found, t);
        tell_readings(found, t);
        for (const Finding& one : found)
            raised.rows.push_back({Text(t.titled()), Text(one.words), Text(one.statistic), Text(probability(one.p, style)),
                                   Text(probability(one.level, style))});
        all.insert(all.end(), found.begin(), found.end());
    }
    const auto told = std::ranges::find_if(tellers, [](const Teller& t) { return evaluate::value_of(t.hints.outlier) != nullptr; });
    made.opening = {.label = "Hints",
                    .anchor = "hints",
                    .lead = hints_lead(all),
                    .body = Text("Hints are not results: they change no number and remove no reading.")};
    if (!all.empty()) made.sections.push_back({.parts = {std::move(raised)}});
    Section every{.heading = "Tests made",
                  .parts = {Paragraph{levels_note(told == tellers.end() ? tellers.front().hints : told->hints, count, style)}},
                  .set_as = SetAs::Reference};
    if (const auto known = properties(tellers); !known.empty()) every.parts.emplace_back(BulletList{known});
    if (const auto why = reasons(tellers); !why.empty()) every.parts.emplace_back(BulletList{why});
    made.sections.push_back(std::move(every));
    return made;
}

}  // namespace wayfolio::report
