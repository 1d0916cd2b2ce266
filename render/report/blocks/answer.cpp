#include "report/blocks/blocks.hpp"

#include "document/states.hpp"
#include "report/blocks/answer_rows.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

std::string axes_of(const std::vector<SeriesView>& views) {
    std::vector<std::string> axes;
    for (const SeriesView& view : views) {
        add_once(axes, view.series.error.axis);
    }
    return listed(axes) + (axes.size() == 1 ? " axis" : " axes");
}

/// What the columns mean, in one line where it fits.
std::vector<Text> rows_note(const Subject& subject, const Answer& made) {
    std::vector<const QuantityRow*> rows;
    for (const QuantityRow& row : made.rows) rows.push_back(&row);
    for (const QuietRows& some : made.quiet)
        for (const QuantityRow& row : some.rows) rows.push_back(&row);
    Text note;
    if (std::ranges::any_of(rows, [](const QuantityRow* row) { return row->result.words().find("±") != std::string::npos; })) {
        const bool by_t = subject.document.evaluation.coverage == document::Coverage::Percent95;
        note.symbol("U").plain(": expanded uncertainty, ").symbol("k");
        note.plain(by_t ? " for 95\u202f% as named with each budget" : "\u00a0=\u00a02 unless named otherwise");
        note.plain("; the bar is ±\u202f").symbol("U").plain(". ");
    }
    if (std::ranges::any_of(rows, [](const QuantityRow* row) { return row->probability.has_value(); }))
        note.symbol("p").plain(": probability that the true value keeps its limit. ");
    if (!subject.evaluation.decisions.empty()) {
        const auto& first = subject.evaluation.decisions.front();
        note.plain("Rule: " + rule_words(first.rule) + (first.rule_stated ? ". " : ", as the document names none. "));
    }
    const auto drawn = [](const QuantityRow* row) { return !row->curve.empty(); };
    if (std::ranges::count_if(rows, drawn) > 1) {
        const bool stems = std::ranges::any_of(rows, [&](const QuantityRow* row) { return drawn(row) && !row->curve.scale.empty(); });
        note.plain("Curves of one unit share a scale");
        if (stems) note.plain("; ").symbol("R").plain(" and ").symbol("B").plain(" have their own");
        note.plain(".");
    }
    return note.empty() ? std::vector<Text>{} : std::vector<Text>{note};
}

}  // namespace

Answer answer(const Subject& subject) {
    const auto views = answering_series(subject);
    const auto compared = states_compared(subject.document);
    Answer made;
    made.opening = {.label = "Calibration of the " + axes_of(views) +
                             (compared        ? state_suffix(compared->second)
                              : views.empty() ? ""
                                              : state_suffix(views[0].series.state)),
                    .anchor = "answer",
                    .lead = answer_lead(subject, views),
                    .body = answer_body(subject, views)};
    made.weaknesses = weaknesses(subject, views);
    made.facts = short_facts(subject);
    add_rows(made, subject, views);
    made.rows_note = rows_note(subject, made);
    made.what_next = what_next(subject, views);
    made.cautions = answer_cautions(subject);
    made.signatures = signatures_of(subject);
    made.below_issuer = subject.document.job.laboratory && !subject.layout.blocks.empty() && subject.layout.blocks.front() == "answer";
    made.issue_note = issue_note(subject.document, made.below_issuer);
    made.signed_at_end =
        std::ranges::any_of(subject.layout.blocks, [](const auto& name) { return name == "closing" || name == "remarks"; });
    made.stands_alone = subject.layout.blocks == std::vector<std::string>{"answer"};
    return made;
}

}  // namespace wayfolio::report
