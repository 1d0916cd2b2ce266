#include "report/blocks/blocks.hpp"

#include "report/blocks/state_pairs.hpp"
#include "report/blocks/tables/tables.hpp"
#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

bool has_block(const Subject& subject, const char* name) {
    return std::ranges::find(subject.layout.blocks, name) != subject.layout.blocks.end();
}

/// @param unit  of all rows, empty where they differ
void add_parameters(PlainTable& table, const Subject& subject, const SeriesView& view, const std::string& unit) {
    for (const ParameterRow& row : parameter_table(subject, view).rows) {
        Text name(view.series.error.text() + " ");
        name.append(row.name).plain(unit.empty() ? " / " + std::string(view.shown.unit.symbol) : "");
        table.rows.push_back(
            {std::move(name), row.positive, row.negative, row.both, row.U, row.limit, row.targets, row.verdict.short_form});
    }
}

/// The unit of all positioning series among these; empty where they differ.
std::string shared_unit(const Subject& subject, const std::vector<std::string>& ids) {
    std::string unit;
    for (const std::string& id : ids) {
        const SeriesView& view = *find_view(subject.views, id);
        if (view.evaluation.kind != evaluate::SeriesKind::Positioning) continue;
        if (!unit.empty() && unit != view.shown.unit.symbol) return "";
        unit = view.shown.unit.symbol;
    }
    return unit;
}

/// "both approaches 8.6 ± 1.5; positive 8.1; limit 10": the table of a panel as a line of text.
Text in_a_line(const Panel& panel) {
    Text line;
    for (const auto& [name, number] : panel.rows) line.plain(line.empty() ? "" : "; ").append(name).plain("\u00a0").append(number);
    line.plain(line.empty() ? "" : ". ").append(panel.verdict.short_form).plain(".");
    for (const Text& note : panel.notes) line.plain(" ").append(note).plain(note.words().ends_with('.') ? "" : ".");
    return line;
}

}  // namespace

std::vector<std::string> shown_by_states(const Subject& subject) {
    const auto compared = states_compared(subject.document);
    if (!compared || !has_block(subject, "answer") || !has_block(subject, "states")) return {};
    std::vector<std::string> ids;
    for (const BothStates& pair : pairs_of(subject, *compared)) add_once(ids, pair.first.series.id);
    return ids;
}

std::string where_told(const Subject& subject, const std::string& series) {
    const std::vector<std::string> ids = shown_by_states(subject);
    return std::ranges::find(ids, series) == ids.end() ? opening_anchor(series) : states_anchor;
}

std::vector<Section> superseded_numbers(const Subject& subject) {
    const std::vector<std::string> ids = shown_by_states(subject);
    if (ids.empty()) return {};
    const std::string unit = shared_unit(subject, ids);
    PlainTable positioning{.columns = {{"Parameter" + (unit.empty() ? "" : " / " + unit), 0.3},
                                       {"positive", 0.08, numbers}, {"negative", 0.09, numbers},
                                       {"both", 0.07, numbers}, {"U", 0.06, numbers}, {"limit", 0.08, numbers},
                                       {"targets", 0.08, numbers}, {"verdict", 0.24}}};
    PlainTable panel_rows{.columns = {{"Quantity", 0.2}, {"in numbers", 0.8}}};
    Section section{.heading = "In numbers", .parts = {}};
    for (const std::string& id : ids) {
        const SeriesView& view = *find_view(subject.views, id);
        section.heading = capitalised(state_words(view.series.state)) + ", in numbers";
        if (view.evaluation.kind == evaluate::SeriesKind::Positioning) {
            add_parameters(positioning, subject, view, unit);
            continue;
        }
        const Panel panel = panels(subject, {view}).panels.front();
        Text words = in_a_line(panel);
        words.plain(locally_largest(subject, view));
        panel_rows.rows.push_back({Text(panel.name + " / " + std::string(view.shown.unit.symbol)), words});
    }
    if (!positioning.rows.empty()) section.parts.emplace_back(std::move(positioning));
    if (!panel_rows.rows.empty()) section.parts.emplace_back(std::move(panel_rows));
    std::vector<Section> sections{std::move(section)};
    if (has_block(subject, "tool-point")) std::ranges::move(tool_point_numbers(subject, ids), std::back_inserter(sections));
    return sections;
}

}  // namespace wayfolio::report
