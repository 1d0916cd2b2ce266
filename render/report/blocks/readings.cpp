#include "report/blocks/blocks.hpp"

#include "report/blocks/plots/plots.hpp"
#include "report/words/names.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace wayfolio::report {
namespace {

/// Letters of notes raised: the font's own modifier letters where they exist, else the letter itself in brackets.
std::string raised(const std::string& letter) {
    static const std::map<char, std::string> raised_letters{
        {'a', "\u1d43"}, {'b', "\u1d47"}, {'c', "\u1d9c"}, {'d', "\u1d48"}, {'e', "\u1d49"}, {'f', "\u1da0"}, {'g', "\u1d4d"},
        {'h', "\u02b0"}, {'i', "\u2071"}, {'j', "\u02b2"}, {'k', "\u1d4f"}, {'l', "\u02e1"}, {'m', "\u1d50"}, {'n', "\u207f"},
        {'o', "\u1d52"}, {'p', "\u1d56"}, {'r', "\u02b3"}, {'s', "\u02e2"}, {'t', "\u1d57"}, {'u', "\u1d58"}, {'v', "\u1d5b"},
        {'w', "\u02b7"}, {'x', "\u02e3"}, {'y', "\u02b8"}, {'z', "\u1dbb"}};
    std::string text;
    for (const char c : letter) {
        const auto found = raised_letters.find(c);
        text += found == raised_letters.end() ? std::string(1, c) : found->second;
    }
    return text;
}

struct Counted {
    std::size_t readings = 0, used = 0;
};

Counted counted(const document::Series& series) {
    Counted all;
    for (const document::Run& run : series.runs) {
        const std::size_t first = series.steps_base_mm ? 1 : 0;  // the first station of angle steps has no reading
        for (std::size_t i = first; i < run.deviations.size(); ++i) {
            ++all.readings;
            if (run.used(i)) ++all.used;
        }
    }
    return all;
}

Text readings_lead(const SeriesView& view) {
    if (view.evaluation.source == evaluate::Source::Stated)
        return Text("Values as stated by the analyst; there are no readings to recompute them from.");
    // Of every other reading a note says why.
    const Counted all = counted(view.series);
    const std::string of_all = std::to_string(all.readings) + " readings were used.";
    return Text(all.used == all.readings ? "All " + of_all : std::to_string(all.used) + " of " + of_all);
}

Text readings_body(const SeriesView& view) {
    Text body("Actual minus target.");
    if (view.series.target_minus_actual) body.plain(" The document gives target minus actual; the signs are changed here.");
    if (view.evaluation.air_correction && evaluate::value_of(*view.evaluation.air_correction))
        body.plain(" Readings stand as they were taken; the means are corrected for the air.");
    if (view.evaluation.kind == evaluate::SeriesKind::AngleSteps)
        body.plain(" Readings are angle steps; each belongs to the farther station. The means are heights above the first, by the angles "
                   "of that direction.");
    return body;
}

/// Decimals of the columns of one table: readings as they were taken; means, s, reversal and repeatability to one place.
struct ColumnDecimals {
    int readings, statistics;
};

ColumnDecimals decimals_of(const SeriesView& view) {
    ColumnDecimals decimals{.readings = view.reading_shown.reading_decimals.value_or(view.reading_shown.decimals),
                            .statistics = view.shown.statistics_decimals};
    std::vector<std::optional<Deviation>> means, spreads, reversals;
    for (const auto& target : view.evaluation.targets) {
        reversals.push_back(target.reversal);
        for (const Approach approach : document::both_approaches) {
            means.push_back(target.one_way[approach].mean);
            spreads.push_back(target.one_way[approach].s);
        }
    }
    for (const auto& column : {means, spreads, reversals})
        decimals.statistics = std::max(decimals.statistics, column_decimals(view.shown, column));
    return decimals;
}

/// A reversal as the difference of the means that stand beside it, so that the row closes.
Text printed_reversal(const SeriesView& view, const evaluate::TargetEvaluation& target, int decimals) {
    if (!target.reversal) return {};
    const auto& [up, down] = target.one_way;
    if (!up.mean || !down.mean) return Text(number_of(view.shown, *target.reversal, decimals));
    const auto as_printed = [&](const Deviation& mean) { return units::printed(mean.in(view.shown.unit), decimals); };
    return Text(units::number(as_printed(*up.mean) - as_printed(*down.mean), decimals, view.shown.style));
}

Text number_or_dash(const Shown& shown, const std::optional<Deviation>& value, int decimals) {
    return value ? Text(number_of(shown, *value, decimals)) : Text(no_value);
}

ReadingLine line_of(const SeriesView& view, const evaluate::TargetEvaluation& target, Approach approach,
                    const std::vector<ReadingNote>& notes, const ColumnDecimals& decimals) {
    ReadingLine line{.approach = approach};
    for (std::size_t run = 0; run < view.series.runs.size(); ++run) {
        const document::Run& one = view.series.runs[run];
        if (one.approach != approach || target.index >= one.deviations.size()) continue;
        const auto& reading = one.deviations[target.index];
        const auto note = std::ranges::find_if(notes, [&](const ReadingNote& n) { return n.run == run && n.target == target.index; });
        if (note == notes.end())
            line.readings.push_back(number_or_dash(view.reading_shown, reading, decimals.readings));
        else if (note->excluded_because && reading)
            line.readings.emplace_back("(" + number_of(view.reading_shown, *reading, decimals.readings) + ")" + raised(note->letter));
        else line.readings.emplace_back(std::string(no_value) + "\u202f" + raised(note->letter));
    }
    const evaluate::OneWay& one_way = target.one_way[approach];
    line.mean = number_or_dash(view.shown, one_way.mean, decimals.statistics);
    line.s = number_or_dash(view.shown, one_way.s, decimals.statistics);
    return line;
}

std::vector<Text> notes_of(const SeriesView& view, const evaluate::TargetEvaluation& target, const std::vector<ReadingNote>& notes) {
    std::vector<Text> texts;
    for (const ReadingNote& note : notes) {
        if (note.target != target.index) continue;
        const std::string where = capitalised(run_words(view.series, note.run)) + ", target " + std::to_string(target.index + 1);
        Text text(raised(note.letter) + "\u202f" + (note.excluded_because ? "Excluded, not evaluated. " : "Missing. ") + where);
        text.plain(note.excluded_because ? ": " + *note.excluded_because + "." : ".");
        texts.push_back(std::move(text));
    }
    return texts;
}

/// Puts the number that stands farthest out in strong type; `outward` gives its value as seen from inside, nothing where there is none.
template <class Value, class Cell>
void strengthen(std::vector<ReadingTarget>& rows, const std::vector<evaluate::TargetEvaluation>& targets, const Value& outward,
                const Cell& cell) {
    std::optional<std::size_t> farthest;
    for (std::size_t i = 0; i < targets.size(); ++i)
        if (outward(targets[i]) && (!farthest || *outward(targets[i]) > *outward(targets[*farthest]))) farthest = i;
    if (!farthest) return;
    if (Text* found = cell(rows[*farthest])) *found = emphasised(*found);
}

bool is_strong(const Text& words) {
    return std::ranges::any_of(words.spans(), [](const Span& span) { return span.emphasis == Emphasis::Strong; });
}

/// What sets ranges and maxima: the largest and smallest mean of either approach, the largest s, reversal (of either sign) and R.
void strengthen_extremes(Readings& made, const std::vector<evaluate::TargetEvaluation>& targets) {
    for (std::size_t which = 0; which < document::both_approaches.size(); ++which) {
        const Approach approach = document::both_approaches[which];
        const auto of_line = [&](Text ReadingLine::*member) {
            return [which, member](ReadingTarget& row) { return which < row.lines.size() ? &(row.lines[which].*member) : nullptr; };
        };
        const auto mean = [&](const auto& target) { return target.one_way[approach].mean; };
        const auto smallest = [&](const auto& target) { return mean(target) ? std::optional(-*mean(target)) : std::nullopt; };
        strengthen(made.targets, targets, mean, of_line(&ReadingLine::mean));
        strengthen(made.targets, targets, smallest, of_line(&ReadingLine::mean));
        strengthen(made.targets, targets, [&](const auto& target) { return target.one_way[approach].s; }, of_line(&ReadingLine::s));
    }
    const auto reversal = [](const auto& target) { return target.reversal ? std::optional(units::abs(*target.reversal)) : std::nullopt; };
    strengthen(made.targets, targets, reversal, [](ReadingTarget& row) { return &row.reversal; });
    strengthen(made.targets, targets, [](const auto& target) { return target.R; }, [](ReadingTarget& row) { return &row.repeatability; });
    made.extremes_are_strong = true;
}

/// "10.9, −12.2": the largest and the smallest reading of an approach that took part, as they were taken.
Text extreme_readings(const SeriesView& view, Approach approach, int decimals) {
    std::optional<Deviation> most, least;
    const std::size_t first = view.series.steps_base_mm ? 1 : 0;  // the first station of angle steps has no reading
    for (const document::Run& run : view.series.runs) {
        if (run.approach != approach) continue;
        for (std::size_t i = first; i < run.deviations.size(); ++i) {
            if (!run.used(i)) continue;
            const Deviation& reading = *run.deviations[i];
            if (!most || reading > *most) most = reading;
            if (!least || reading < *least) least = reading;
        }
    }
    if (!most) return {};
    const auto printed = [&](const Deviation& reading) { return number_of(view.reading_shown, reading, decimals); };
    return Text().strong(printed(*most) + ", " + printed(*least));
}

/// "A 9.5  E 6.6  M 5.4  R 6.4  B 2.3", "straightness 7.5  B 1.7": each as every other page prints it; what is not evaluated is left out.
Text measured_words(const Subject& subject, const SeriesView& view) {
    const bool positioning = view.evaluation.kind == evaluate::SeriesKind::Positioning;
    const std::vector<std::string> names =
        positioning ? std::vector<std::string>{"A", "E", "M", "R", "B"}
                    : std::vector<std::string>{headline_parameter(view.series, view.evaluation), "B"};
    const auto other_way = [&](Approach approach) {
        return std::ranges::any_of(view.series.runs, [&](const auto& run) { return run.approach != approach; });
    };
    Text words;
    const auto add = [&](const std::string& name) {
        const auto value = value_of_parameter(view.evaluation, name);
        if (!value) return false;
        const std::string apart = words.empty() ? "" : "\u2002";
        if (const std::string symbol = parameter_symbol(name); !symbol.empty()) words.symbol(apart + symbol);
        else words.plain(apart + (view.evaluation.kind == evaluate::SeriesKind::Angle ? "range" : "straightness"));
        words.strong("\u00a0" + result_number(view.shown, *value, parameter_decimals(subject, view, name)));
        return true;
    };
    for (const std::string& name : names) {
        if (add(name)) continue;
        // Read in one direction only, that direction's is the only one there is.
        for (const Approach approach : document::both_approaches)
            if (!other_way(approach) && !direction_of(name)) add(in_direction(name, approach));
    }
    return words;
}

}  // namespace

Readings readings(const Subject& subject, const SeriesView& view) {
    Readings made;
    made.opening = {.label = "Readings of " + series_name(view.series),
                    .anchor = readings_anchor(view.series.id),
                    .lead = readings_lead(view),
                    .body = readings_body(view)};
    made.axis = view.series.error.axis;
    made.unit = view.reading_shown.unit.symbol;
    made.evaluated_unit = view.shown.unit.symbol;
    made.position_unit = view.shown.position.symbol;
    const auto notes = reading_notes(view.series, view.evaluation);
    const ColumnDecimals decimals = decimals_of(view);
    const int place_decimals = position_decimals(view.shown, view.series);
    std::size_t most_runs = 0;
    for (const auto& target : view.evaluation.targets) {
        ReadingTarget row{.number = std::to_string(made.targets.size() + 1),
                          .position = units::number(target.position.in(view.shown.position), place_decimals, view.shown.style)};
        const auto has = [&](Approach approach) {
            const bool runs = std::ranges::any_of(view.series.runs, [&](const auto& run) { return run.approach == approach; });
            return runs || target.one_way[approach].mean.has_value();
        };
        for (const Approach approach : document::both_approaches) {
            if (has(approach)) row.lines.push_back(line_of(view, target, approach, notes, decimals));
            if (!row.lines.empty()) most_runs = std::max(most_runs, row.lines.back().readings.size());
        }
        row.reversal = printed_reversal(view, target, decimals.statistics);
        const auto& [up, down] = target.one_way;
        const auto& spread = target.R ? target.R : up.R && !down.R ? up.R : down.R;
        row.repeatability = spread ? Text(number_of(view.shown, *spread, decimals.statistics)) : Text();
        row.notes = notes_of(view, target, notes);
        made.targets.push_back(std::move(row));
    }
    for (std::size_t run = 0; run < most_runs; ++run) made.run_heads.push_back(std::to_string(run + 1));
    const bool two_way = std::ranges::all_of(made.targets, [](const auto& row) { return row.lines.size() == 2; });
    if (two_way && made.targets.size() > 1) strengthen_extremes(made, view.evaluation.targets);
    made.reversal_column = std::ranges::any_of(view.evaluation.targets, [](const auto& t) { return t.reversal.has_value(); });
    made.repeatability_column =
        std::ranges::any_of(view.evaluation.targets, [](const auto& t) { return t.R || t.one_way.positive.R || t.one_way.negative.R; });
    if (view.evaluation.source != evaluate::Source::Stated)
        made.extremes = {.readings = {extreme_readings(view, Approach::Positive, decimals.readings),
                                      extreme_readings(view, Approach::Negative, decimals.readings)},
                         .measured = measured_words(subject, view)};
    made.one_run = one_run(subject, view, decimals.statistics);
    if (made.one_run)
        for (ReadingTarget& row : made.targets)
            for (ReadingLine& line : row.lines)
                if (is_strong(line.mean) && line.readings.size() == 1) line.readings.front() = emphasised(line.readings.front());
    return made;
}

}  // namespace wayfolio::report
