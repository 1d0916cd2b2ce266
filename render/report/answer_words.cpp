#include "report/answer_words.hpp"

#include "report/names.hpp"
#include "report/verdicts.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

using evaluate::Decision;
using evaluate::Outcome;

constexpr std::string_view advice_opening = "What to do next:";

struct Tally {
    std::size_t limited = 0, inside = 0;
    std::vector<const Decision*> outside, undecided, open;  ///< open: not decided
};

/// The worst decision of each series; local limits and limits of single parameters count with it.
Tally tally(const Subject& subject, const std::vector<SeriesView>& views) {
    Tally made;
    for (const SeriesView& view : views) {
        const Decision* worst = nullptr;
        for (const Decision& decision : subject.evaluation.decisions) {
            if (decision.series != view.series.id || decision.axes) continue;
            if (!worst || severity(&decision) < severity(worst)) worst = &decision;
        }
        if (!worst) continue;
        ++made.limited;
        switch (worst->outcome) {
            case Outcome::Pass: ++made.inside; break;
            case Outcome::Fail: made.outside.push_back(worst); break;
            case Outcome::NotDecided: made.open.push_back(worst); break;
            case Outcome::Undecided:
            case Outcome::ConditionalFail:
            case Outcome::ConditionalPass: made.undecided.push_back(worst); break;
        }
    }
    return made;
}

const SeriesView& view_of(const std::vector<SeriesView>& views, const Decision& decision) {
    return *std::ranges::find_if(views, [&](const SeriesView& v) { return v.series.id == decision.series; });
}

std::string name_of(const Subject& subject, const std::vector<SeriesView>& views, const Decision& decision) {
    const SeriesView& view = view_of(views, decision);
    const bool several_axes = std::ranges::any_of(views, [&](const SeriesView& v) { return v.series.error.axis != views[0].series.error.axis; });
    std::string name = quantity_name(subject.document, view.series.error);
    if (decision.length_mm) name = "Local s" + name.substr(1);
    else if (decision.parameter != headline_parameter(view.series, view.evaluation)) {
        const std::string symbol = parameter_symbol(decision.parameter);
        name = parameter_words(symbol.empty() ? decision.parameter : symbol, view.evaluation.standard) + (symbol.empty() ? "" : "\u00a0" + symbol);
    }
    return several_axes ? name + " of " + view.series.error.axis : name;
}

Text outside_sentence(const Subject& subject, const std::vector<SeriesView>& views, const Tally& counted) {
    if (counted.outside.size() > 2) {
        std::vector<std::string> names;
        for (const Decision* decision : counted.outside) names.push_back(name_of(subject, views, *decision));
        if (names.size() > 4) return Text(capitalised(count_word(names.size())) + " are outside.");
        for (std::size_t i = 1; i < names.size(); ++i) names[i][0] = static_cast<char>(std::tolower(static_cast<unsigned char>(names[i][0])));
        return Text(listed(names) + " are outside.");
    }
    Text text;
    for (const Decision* decision : counted.outside) {
        const bool past = *decision->value > decision->limit;
        const std::string by = past ? distance_to_limit(*decision, view_of(views, *decision).shown) : "";
        std::string name = name_of(subject, views, *decision);
        if (!text.empty()) {
            text.plain(", ");
            name[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(name[0])));
        }
        text.plain(name + (text.empty() ? " is outside" : "") + (by.empty() ? "" : " by " + by));
    }
    return text.empty() ? text : text.plain(".");
}

Text open_sentence(const Subject& subject, const std::vector<SeriesView>& views, const Tally& counted) {
    std::vector<const Decision*> open = counted.undecided;
    open.insert(open.end(), counted.open.begin(), counted.open.end());
    if (open.empty()) return {};
    if (open.size() > 2) return Text(capitalised(count_word(open.size())) + " cannot be decided.");
    std::vector<std::string> names;
    for (const Decision* decision : open) names.push_back(name_of(subject, views, *decision));
    if (names.size() == 2) names[1][0] = static_cast<char>(std::tolower(static_cast<unsigned char>(names[1][0])));
    return Text(listed(names) + " cannot be decided.");
}

std::string source_sentence(const Subject& subject, const std::vector<SeriesView>& views) {
    std::vector<std::string> sources;
    for (const SeriesView& view : views) {
        for (const auto& tolerance : view.series.tolerances) {
            if (!tolerance.source.empty() && std::ranges::find(sources, tolerance.source) == sources.end()) sources.push_back(tolerance.source);
        }
    }
    if (subject.evaluation.decisions.empty() || sources.empty() || sources.size() > 2) return "";
    return " The limits are those of: " + listed(sources) + ".";
}

/// "Positioning EXX, A, is 41.1 ± 4.1 µm where 30 µm is allowed"
Text finding(const SeriesView& view, const std::string& name, const Decision& decision) {
    Text text(name + " (" + view.series.error.text() + ")");
    if (decision.length_mm) text.plain(" over any " + with_unit(units::number(*decision.length_mm, 0, view.shown.style), "mm"));
    const std::string limit = with_unit(limit_number(view.shown, decision.limit), view.shown.unit.symbol);
    if (decision.value) text.plain(" is " + result_text(view.shown, *decision.value, decision.expanded) + " where " + limit + " is allowed");
    else text.plain(" was not evaluated; " + limit + " is allowed");
    return text;
}

}  // namespace

Text answer_lead(const Subject& subject, const std::vector<SeriesView>& views) {
    const Tally counted = tally(subject, views);
    const std::size_t total = views.size();
    const std::string quantities = total == 1 ? " quantity" : " quantities";
    if (counted.limited == 0) {
        if (total == 1) {
            const SeriesView& only = views[0];
            const std::string headline = headline_parameter(only.series, only.evaluation);
            return Text(quantity_name(subject.document, only.series.error) + ": ").append(shown_result(subject, only, headline)).plain("; no limit is set.");
        }
        return Text(capitalised(count_word(total)) + " quantities were measured; no limit is set.");
    }
    Text lead;
    if (counted.inside == total) {
        lead = total == 1 ? Text(quantity_name(subject.document, views[0].series.error) + " is inside its limit.")
                          : Text("All " + count_word(total) + " quantities are inside their limits.");
    } else if (counted.inside > 0) {
        const std::string of = counted.limited == total ? quantities : quantities + " with a limit";
        lead = Text(capitalised(count_word(counted.inside)) + " of " + count_word(counted.limited) + of +
                    (counted.inside == 1 ? " is inside its limit." : " are inside their limits."));
    }
    for (const Text& sentence : {outside_sentence(subject, views, counted), open_sentence(subject, views, counted)}) {
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
    text += "." + source_sentence(subject, views);
    return Text(text);
}

std::vector<Text> what_failed(const Subject& subject, const std::vector<SeriesView>& views) {
    std::vector<Text> paragraphs;
    Text undecided;
    for (const Decision& decision : subject.evaluation.decisions) {
        const auto view = std::ranges::find_if(views, [&](const SeriesView& v) { return v.series.id == decision.series; });
        if (view == views.end() || decision.axes || decision.outcome == Outcome::Pass) continue;
        Text text = finding(*view, name_of(subject, views, decision), decision);
        switch (decision.outcome) {
            case Outcome::Fail: paragraphs.push_back(text.plain(": fail.")); break;
            case Outcome::ConditionalFail: paragraphs.push_back(text.plain(": conditional fail, past the limit by less than its\u00a0").symbol("U").plain(".")); break;
            case Outcome::ConditionalPass: paragraphs.push_back(text.plain(": conditional pass, inside by less than its\u00a0").symbol("U").plain(".")); break;
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
    if (!counted.outside.empty()) steps.emplace_back("After any adjustment measure again, on the same line and targets; verdicts can change.");
    if (!counted.undecided.empty()) steps.push_back(Text("Where a result is undecided, lower its uncertainty or agree another limit, then measure again."));
    if (!counted.open.empty()) steps.push_back(Text("Where nothing could be decided, supply what the reason names and evaluate again."));
    if (steps.empty() && counted.limited > 0) steps.emplace_back("Nothing has to be done for these limits. Keep the compensation that was in use during the measurement.");
    if (steps.empty()) steps.emplace_back("Agree limits and a decision rule if a statement of conformity is wanted.");
    return steps;
}

std::vector<Text> answer_cautions(const Subject& subject) {
    std::vector<Text> cautions{
        Text("The results hold for this machine, these measuring lines and the time of the test."),
        Text("Advice on this page is opinion drawn from the results; it is not a result."),
        Text("Laser light and moving axes: keep eyes off the beam, lock out axes before adjusting. Local codes, the maker’s instructions and licensed practice come first.")};
    cautions.emplace_back("Before a compensation table is loaded, check sign, unit and reference point; measure again afterwards.");
    if (subject.document.job.status == results::Status::Draft) cautions.insert(cautions.begin(), Text().strong("Draft: not for use as a certificate."));
    return cautions;
}

std::vector<Text> issue_note(const results::Document& document) {
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
