#include "report/words/passages.hpp"

#include "report/words/judgements.hpp"
#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

using evaluate::Decision;
using evaluate::Outcome;

constexpr std::string_view advice_opening = "What to do next:";

Text outside_sentence(const Tally& counted) {
    constexpr std::size_t most_measured = 2, most_named = 4;
    if (counted.outside.size() > most_named) return Text(capitalised(count_word(counted.outside.size())) + " are outside.");
    if (counted.outside.size() > most_measured) {
        std::vector<std::string> names;
        for (const Judgement& one : counted.outside) names.push_back(names.empty() ? one.name : uncapitalised(one.name));
        return Text(listed(names) + " are outside.");
    }
    Text text;
    for (const Judgement& one : counted.outside) {
        const bool past = judged_value(*one.decision) > one.decision->limit;
        const std::string by = past ? " by " + distance_to_limit(*one.decision, one.shown) : "";
        if (text.empty()) text.plain(one.name + (past ? " is outside" : " is not accepted") + by);
        else text.plain(", " + uncapitalised(one.name) + by);
    }
    return text.empty() ? text : text.plain(".");
}

/// What a non-binary rule leaves conditional is decided, but by less than U.
Text conditional_sentence(const Tally& counted) {
    Text text;
    for (const Judgement& one : counted.undecided) {
        const bool within = one.decision->outcome == Outcome::ConditionalPass;
        if (!within && one.decision->outcome != Outcome::ConditionalFail) continue;
        text.plain((text.empty() ? "" : " ") + one.name + (within ? " is inside" : " is outside") + " its limit by less than\u00a0")
            .symbol("U")
            .plain(".");
    }
    return text;
}

Text open_sentence(const Tally& counted) {
    std::vector<Judgement> open;
    std::ranges::copy_if(counted.undecided, std::back_inserter(open),
                         [](const Judgement& one) { return one.decision->outcome == Outcome::Undecided; });
    open.insert(open.end(), counted.open.begin(), counted.open.end());
    if (open.empty()) return {};
    if (open.size() > 2) return Text(capitalised(count_word(open.size())) + " cannot be decided.");
    std::vector<std::string> names;
    for (const Judgement& one : open) names.push_back(names.empty() ? one.name : uncapitalised(one.name));
    return Text(listed(names) + " cannot be decided.");
}

std::string source_sentence(const Subject& subject, const std::vector<SeriesView>& views) {
    std::vector<std::string> sources;
    for (const Judgement& one : judgements(subject, views)) {
        if (!one.decision->source.empty()) add_once(sources, one.decision->source);
    }
    if (sources.empty() || sources.size() > 2) return "";
    return " The limits are those of: " + listed(sources) + ".";
}

/// Warnings change no result, but a reader of the first page must know that there are some.
std::string warnings_sentence(const Subject& subject) {
    const std::size_t warnings = subject.evaluation.warnings.size();
    if (warnings == 0) return "";
    const bool here = std::ranges::find(subject.layout.blocks, "conditions") != subject.layout.blocks.end();
    return " " + capitalised(count_word(warnings)) + (warnings == 1 ? " warning stands" : " warnings stand") +
           (here ? " under Conditions and set-up." : " in the whole report.");
}

/// "Positioning (EXX) is 41.1 ± 4.1 µm where 30 µm is allowed"
Text finding(const Judgement& one) {
    const Decision& decision = *one.decision;
    Text text(one.name + " (" + one.symbol + ")");
    if (decision.length_mm) text.plain(" over any " + length_text(*decision.length_mm, one.shown.style));
    const std::string limit = with_unit(limit_number(one.shown, decision.limit), one.shown.unit.symbol);
    if (decision.value) text.plain(" is " + result_text(one.shown, *decision.value, decision.expanded) + " where " + limit + " is allowed");
    else text.plain(" was not evaluated; " + limit + " is allowed");
    return text;
}

/// A value that its limit allows can fail all the same: the rule keeps it away from the limit by a guard band.
Text failed(const Judgement& one) {
    const Decision& decision = *one.decision;
    if (!decision.margin || !decision.guard || *decision.margin < *decision.guard * 0.0) return Text(": fail.");
    return Text(": fail, as the rule keeps it " + value_text(one.shown, *decision.guard, result_decimals(one.shown, decision.expanded)) +
                " clear of the limit.");
}

/// "Scatter makes E (EXX) too large, by up to 0.9 µm, and three more results: U alone does not cover that." The worst one is named.
Text scatter_sentence(const Subject& subject, const std::vector<SeriesView>& views) {
    constexpr double noticeable = 0.1;
    double worst = noticeable;
    const evaluate::ParameterUncertainty* named = nullptr;
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
    const std::string symbol = parameter_symbol(named->parameter);
    Text text(" Scatter makes ");
    if (symbol.empty()) text.plain(of->series.error.text());
    else text.symbol(symbol).plain(" (" + of->series.error.text() + ")");
    text.plain(" too large, by up to " + value_text(of->shown, named->interval->bias, result_decimals(of->shown, named->expanded)));
    if (more > 1) text.plain(", and " + count_word(more - 1) + (more == 2 ? " more result" : " more results"));
    return text.plain(": ").symbol("U").plain(" alone does not cover that.");
}

}  // namespace

Text answer_lead(const Subject& subject, const std::vector<SeriesView>& views) {
    const Tally counted = tally(subject, views);
    const std::size_t total = counted.quantities;
    const std::string quantities = total == 1 ? " quantity" : " quantities";
    if (counted.limited == 0) {
        if (total == 1 && !views.empty()) {
            const SeriesView& only = views[0];
            const std::string headline = headline_parameter(only.series, only.evaluation);
            return Text(quantity_name(subject.document, only.series.error) + ": ")
                .append(shown_result(subject, only, headline))
                .plain("; no limit is set.");
        }
        return Text(capitalised(count_word(total)) + " quantities were measured; no limit is set.");
    }
    Text lead;
    if (counted.inside == total) {
        lead = total == 1 ? Text(quantity_name(subject.document, views[0].series.error) + " is inside its limit.")
                          : Text("All " + count_word(total) + " quantities are inside their limits.");
    } else if (counted.inside > 0 && counted.limited == 1) {
        lead = Text("The only quantity with a limit is inside it.");
    } else if (counted.inside > 0) {
        const std::string of = counted.limited == total ? quantities : quantities + " with a limit";
        lead = Text(capitalised(count_word(counted.inside)) + " of " + count_word(counted.limited) + of +
                    (counted.inside == 1 ? " is inside its limit." : " are inside their limits."));
    }
    for (const Text& sentence : {outside_sentence(counted), conditional_sentence(counted), open_sentence(counted)}) {
        if (sentence.empty()) continue;
        if (!lead.empty()) lead.plain(" ");
        lead.append(sentence);
    }
    return lead;
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
    return Text(text + "." + source_sentence(subject, views))
        .append(scatter_sentence(subject, views))
        .append(known_bias_sentence(subject, views))
        .plain(setup_outside_words(subject.evaluation) + warnings_sentence(subject));
}

std::vector<Text> what_failed(const Subject& subject, const std::vector<SeriesView>& views) {
    std::vector<Text> paragraphs;
    Text undecided;
    for (const Judgement& one : judgements(subject, views)) {
        const Decision& decision = *one.decision;
        Text text = finding(one);
        switch (decision.outcome) {
            case Outcome::Fail: paragraphs.push_back(text.append(failed(one))); break;
            case Outcome::ConditionalFail:
                paragraphs.push_back(text.plain(": conditional fail, past the limit by less than its\u00a0").symbol("U").plain("."));
                break;
            case Outcome::ConditionalPass:
                paragraphs.push_back(text.plain(": conditional pass, inside by less than its\u00a0").symbol("U").plain("."));
                break;
            case Outcome::NotDecided: paragraphs.push_back(text.plain(": not decided, " + decision.reason + ".")); break;
            case Outcome::Undecided: undecided.plain(undecided.empty() ? "" : "; ").append(text); break;
            case Outcome::Pass: break;
        }
    }
    if (!undecided.empty()) paragraphs.push_back(Text("Undecided, as the uncertainty covers both answers: ").append(undecided).plain("."));
    return paragraphs;
}

bool is_advice(std::string_view remark) { return remark.starts_with(advice_opening); }

std::vector<Text> what_next(const Subject& subject, const std::vector<SeriesView>& views) {
    std::vector<Text> steps;
    for (const std::string& remark : subject.document.job.remarks) {
        if (!is_advice(remark)) continue;
        std::string words = remark.substr(advice_opening.size());
        words.erase(0, words.find_first_not_of(' '));
        steps.emplace_back(capitalised(words) + " (remark of the engineer)");
    }
    const Tally counted = tally(subject, views);
    if (!counted.outside.empty())
        steps.emplace_back("After any adjustment measure again, on the same line and targets; verdicts can change.");
    if (!counted.undecided.empty())
        steps.push_back(Text("Where a result is undecided, lower its uncertainty or agree another limit, then measure again."));
    if (!counted.open.empty()) steps.push_back(Text("Where nothing could be decided, supply what the reason names and evaluate again."));
    if (steps.empty() && counted.limited > 0)
        steps.emplace_back("Nothing has to be done for these limits. Keep the compensation that was in use during the measurement.");
    if (steps.empty()) steps.emplace_back("Agree limits and a decision rule if a statement of conformity is wanted.");
    return steps;
}

std::vector<Text> answer_cautions(const Subject& subject) {
    std::vector<Text> cautions{Text("The results hold for this machine, these measuring lines and the time of the test."),
                               Text("Advice on this page is opinion drawn from the results; it is not a result."),
                               Text("Laser light and moving axes: keep eyes off the beam, lock out axes before adjusting. Local codes, the "
                                    "maker’s instructions and licensed practice come first.")};
    cautions.emplace_back("Before a compensation table is loaded, check sign, unit and reference point; measure again afterwards.");
    if (subject.document.job.status == document::Status::Draft)
        cautions.insert(cautions.begin(), Text().strong("Draft: not for use as a certificate."));
    return cautions;
}

std::vector<Text> issue_note(const document::Document& document) {
    const auto& job = document.job;
    Text note;
    if (!job.issued.empty()) note.plain("Issued " + date_part(job.issued) + ".");
    if (job.replaces) {
        note.plain(note.empty() ? "Replaces " : " Replaces ");
        note.plain(job.replaces->revision ? "revision " + std::to_string(*job.replaces->revision) : "report " + job.replaces->number);
        if (!job.replaces->issued.empty()) note.plain(" of " + date_part(job.replaces->issued));
        if (!job.replaces->reason.empty()) note.plain("; " + job.replaces->reason);
        note.plain(".");
    }
    return note.empty() ? std::vector<Text>{} : std::vector<Text>{note};
}

}  // namespace wayfolio::report
