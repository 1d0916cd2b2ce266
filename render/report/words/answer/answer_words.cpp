#include "report/words/passages.hpp"

#include "report/words/judgements.hpp"
#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

/// "Reversal error B", "Pitch and reversal error B", "Five": what a clause is about; counted where there are more than may be named.
std::string subject_words(const std::vector<Judgement>& some, std::size_t most_named) {
    if (some.size() > most_named) return count_word(some.size());
    std::vector<std::string> names;
    for (const Judgement& one : some) names.push_back(uncapitalised(one.name));
    return listed(names);
}

/// "straightness Y is outside by 9.0 µm, pitch by 3 µrad": how far, where no more than two are.
std::string outside_clause(const std::vector<Judgement>& some, std::size_t most_named) {
    const std::size_t most_measured = std::min<std::size_t>(2, most_named);
    const auto by = [](const Judgement& one) { return " by " + distance_to_limit(*one.decision, one.shown); };
    if (some.size() > most_measured) return subject_words(some, most_named) + " are outside";
    const std::string clause = uncapitalised(some[0].name) + " is outside" + by(some[0]);
    return some.size() == 1 ? clause : clause + ", " + uncapitalised(some[1].name) + by(some[1]);
}

std::string clause_of(Standing standing, const std::vector<Judgement>& some, std::size_t most_named) {
    const std::string are = subject_words(some, most_named) + (some.size() == 1 ? " is " : " are ");
    switch (standing) {
        case Standing::Outside: return outside_clause(some, most_named);
        case Standing::OutsideByLess: return are + "outside by less than\u00a0";
        case Standing::NotAccepted: return are + "not accepted";
        case Standing::Undecided: return are + "undecided";
        case Standing::NotEvaluated: return are + "not evaluated";
        case Standing::InsideByLess: return are + "inside by less than\u00a0";
        case Standing::Inside:
        case Standing::NoLimit: break;
    }
    return {};
}

/// What is not inside beyond doubt, worst first: "Straightness Y is outside by 9.0 µm; R and pitch are undecided."
Text not_inside_sentence(const std::vector<Judgement>& all, std::size_t most_named) {
    Text sentence;
    for (const Standing standing : {Standing::Outside, Standing::OutsideByLess, Standing::NotAccepted, Standing::Undecided,
                                    Standing::NotEvaluated, Standing::InsideByLess}) {
        const auto some = of_standing(all, standing);
        if (some.empty()) continue;
        const std::string clause = clause_of(standing, some, most_named);
        sentence.plain(sentence.empty() ? capitalised(clause) : "; " + clause);
        if (standing == Standing::OutsideByLess || standing == Standing::InsideByLess) sentence.symbol("U");
    }
    return sentence.empty() ? sentence : sentence.plain(".");
}

/// "Six of nine values are inside their limits."; those that are so by less than U count, as they are named after it.
std::string count_sentence(const std::vector<Judgement>& all) {
    const std::size_t inside = of_standing(all, Standing::Inside).size() + of_standing(all, Standing::InsideByLess).size();
    if (all.size() == 1) return of_standing(all, Standing::Inside).empty() ? "" : all[0].name + " is inside its limit.";
    if (inside == all.size()) return "All " + count_word(inside) + " values are inside their limits.";
    const std::string of = " of " + count_word(all.size()) + " values ";
    if (inside == 0) return "None" + of + "is inside its limit.";
    return capitalised(count_word(inside)) + of + (inside == 1 ? "is inside its limit." : "are inside their limits.");
}

/// The largest of the values that speak for the quantities, and where it is; lengths before angles, as the two have no common measure.
Text largest_value(const Subject& subject, const std::vector<SeriesView>& views) {
    const SeriesView* largest = nullptr;
    std::optional<Deviation> most;
    std::size_t values = 0;
    for (const units::Dimension dimension : {units::Dimension::Length, units::Dimension::Angle}) {
        for (const SeriesView& view : views) {
            const auto value = value_of_parameter(view.evaluation, headline_parameter(view.series, view.evaluation));
            if (!value || value->dimension() != dimension) continue;
            ++values;
            if (most && !(abs(*value) > *most)) continue;
            most = abs(*value);
            largest = &view;
        }
        if (largest) break;
    }
    if (!largest) return {};
    const std::string headline = headline_parameter(largest->series, largest->evaluation);
    const std::string name = quantity_in_a_sentence(subject.document, largest->series.error) +
                             other_state_suffix(subject.document, largest->series.state);
    const std::string places = setting_places(*largest, headline);
    Text text(" The largest " + std::string(most->dimension() == units::Dimension::Length ? "deviation" : "angle") +
              (values > 1 ? " of " + count_word(values) : "") + " is " + name + ", ");
    return text.append(shown_result(subject, *largest, headline))
        .plain((places.empty() ? "" : ", set at " + places) + ".");
}

std::string source_sentence(const Subject& subject, const std::vector<SeriesView>& views) {
    std::vector<std::string> sources;
    for (const Judgement& one : judgements(subject, views)) {
        if (!one.decision->source.empty()) add_once(sources, one.decision->source);
    }
    if (sources.empty() || sources.size() > 2) return "";
    return " Limits: " + listed(sources) + ".";
}

/// Warnings change no result, but a reader of the first page must know that there are some.
std::string warnings_sentence(const Subject& subject) {
    const std::size_t warnings = subject.evaluation.warnings.size();
    if (warnings == 0) return "";
    const bool here = std::ranges::find(subject.layout.blocks, "conditions") != subject.layout.blocks.end();
    return " See the " + (warnings == 1 ? std::string("warning") : count_word(warnings) + " warnings") +
           (here ? " under Conditions." : " in the whole report.");
}

}  // namespace

Text answer_lead(const Subject& subject, const std::vector<SeriesView>& views) {
    const std::vector<Judgement> all = judgements(subject, views);
    if (all.empty()) {
        const std::size_t quantities = views.size() + answering_squareness(subject, views).size();
        if (quantities != 1 || views.empty())
            return Text(capitalised(count_word(quantities)) + " quantities were measured; no limit is set.")
                .append(largest_value(subject, views));
        const SeriesView& only = views[0];
        const std::string name = quantity_name(subject.document, only.series.error);
        const Text result = shown_result(subject, only, headline_parameter(only.series, only.evaluation));
        if (result.words() == no_value) return Text(name + " is not evaluated; no limit is set.");
        return Text(name + ": ")
            .append(result)
            .plain("; no limit is set.");
    }
    // As many names as three lines of the lead hold; what is not named is counted.
    constexpr std::size_t most_letters = 136, most_named = 4;
    for (std::size_t named = most_named;; --named) {
        Text lead(count_sentence(all));
        const Text rest = not_inside_sentence(all, named);
        lead.plain(lead.empty() || rest.empty() ? "" : " ").append(rest);
        if (named == 1 || lead.words().size() <= most_letters) return lead;
    }
}

Text answer_body(const Subject& subject, const std::vector<SeriesView>& views) {
    if (views.empty()) return {};
    const SeriesView& first = views[0];
    const auto& job = subject.document.job;
    std::string text = "The " + first.series.error.axis + " axis";
    const bool one_axis = std::ranges::all_of(views, [&](const SeriesView& v) { return v.series.error.axis == first.series.error.axis; });
    if (!one_axis) text = "The axes";
    if (subject.document.machine && !subject.document.machine->kind.empty()) text += " of the " + subject.document.machine->kind;
    text += one_axis ? " was measured" : " were measured";
    if (!job.measured_from.empty()) text += " on " + date_part(job.measured_from);
    if (const std::string end = date_part(job.measured_to); !end.empty() && end != date_part(job.measured_from)) text += " to " + end;
    const auto runs = static_cast<std::size_t>(first.series.runs.size());
    if (one_axis && runs > 0 && !first.evaluation.targets.empty()) {
        const auto& targets = first.evaluation.targets;
        text += " in " + count_word(runs) + (runs == 1 ? " run" : " runs") + " at " + std::to_string(targets.size()) + " targets from " +
                position_text(first.shown, targets.front().position) + " to " + position_text(first.shown, targets.back().position);
    }
    return Text(text + "." + source_sentence(subject, views) + warnings_sentence(subject));
}

std::vector<Text> answer_cautions(const Subject& subject) {
    std::vector<Text> cautions{Text("The results hold for this machine, these measurement lines and the time of the test."),
                               Text("Advice on this page is opinion drawn from the results; it is not a result."),
                               Text("Laser light and moving axes: keep eyes off the beam, lock out axes before adjusting. Local codes, the "
                                    "maker’s instructions and licensed practice come first.")};
    cautions.emplace_back("Before a compensation table is loaded, check sign, unit and reference point: a wrong sign doubles the error; "
                          "measure again afterwards.");
    if (subject.document.job.status == document::Status::Draft)
        cautions.insert(cautions.begin(), Text().strong("Draft: not for use as a certificate."));
    return cautions;
}

}  // namespace wayfolio::report
