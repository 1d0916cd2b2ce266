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

/// What is known of one result, by the words for it: "positive", "by end-point line", "set by targets".
struct ResultColumn {
    std::string name;
    std::vector<std::pair<std::string, Text>> values;
};

/// Nothing that another page has not: value, U, limit and verdict of each stand on the first page and in the comparison.
bool stands_elsewhere(const std::string& name) { return name == "both approaches" || name == "limit"; }

void add_parameters(std::vector<ResultColumn>& columns, PlainTable& older, const Subject& subject, const SeriesView& view) {
    const std::string error = view.series.error.text(), unit(view.shown.unit.symbol);
    const ParameterTable table = parameter_table(subject, view);
    for (const ParameterRow& row : table.rows) {
        if (row.symbol.empty()) {
            older.rows.push_back({Text(error + " ").append(row.name).plain(" / " + unit), row.positive, row.negative, row.both});
            continue;
        }
        ResultColumn column{.name = error + " " + row.symbol, .values = {{"unit", Text(unit)}}};
        for (const auto& [name, value] : {std::pair("positive", row.positive), std::pair("negative", row.negative),
                                          std::pair("set by targets", row.targets)})
            if (!value.words().starts_with(no_value)) column.values.emplace_back(name, value);
        if (column.values.size() > 1) columns.push_back(std::move(column));
    }
}

void add_panel(std::vector<ResultColumn>& columns, const Subject& subject, const SeriesView& view) {
    ResultColumn column{.name = view.series.error.text(), .values = {{"unit", Text(std::string(view.shown.unit.symbol))}}};
    const Panels drawn = panels(subject, {view});
    for (const auto& [name, value] : drawn.panels.front().rows)
        if (!stands_elsewhere(name.words())) column.values.emplace_back(name.words(), value);
    if (column.values.size() > 1) columns.push_back(std::move(column));
}

/// Results side by side, what is known of them one below the other.
PlainTable side_by_side(const std::vector<ResultColumn>& columns) {
    std::vector<std::string> names;
    for (const ResultColumn& column : columns)
        for (const auto& [name, value] : column.values) add_once(names, name);
    // Which targets set a result is said last, whatever others know more.
    std::ranges::stable_partition(names, [](const std::string& name) { return name != "set by targets"; });
    constexpr double first = 0.19, most_of_a_result = 0.1;
    const double each = std::min(most_of_a_result, (1 - first) / static_cast<double>(columns.size()));
    PlainTable table{.columns = {{"Result", first}}};
    for (const ResultColumn& column : columns) table.columns.push_back({column.name, each, numbers});
    for (const std::string& name : names) {
        std::vector<Text> row{Text(name)};
        for (const ResultColumn& column : columns) {
            const auto found = std::ranges::find(column.values, name, &std::pair<std::string, Text>::first);
            row.push_back(found == column.values.end() ? Text() : found->second);
        }
        table.rows.push_back(std::move(row));
    }
    return table;
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
    std::vector<ResultColumn> columns;
    PlainTable older{.columns = {{"For comparison only", 0.55}, {"positive", 0.15, numbers}, {"negative", 0.15, numbers},
                                 {"both", 0.15, numbers}}};
    Section section{.heading = "In numbers", .parts = {}};
    std::string places;
    for (const std::string& id : ids) {
        const SeriesView& view = *find_view(subject.views, id);
        section.heading = capitalised(state_words(view.series.state)) + ", what no other page says";
        if (view.evaluation.kind == evaluate::SeriesKind::Positioning) add_parameters(columns, older, subject, view);
        else add_panel(columns, subject, view);
        places += locally_largest(subject, view);
    }
    if (columns.empty() && older.rows.empty()) return {};
    constexpr std::size_t most_columns = 10;
    for (std::size_t from = 0; from < columns.size(); from += most_columns) {
        const auto begin = columns.begin() + static_cast<std::ptrdiff_t>(from);
        const auto end = columns.begin() + static_cast<std::ptrdiff_t>(std::min(columns.size(), from + most_columns));
        section.parts.emplace_back(side_by_side({begin, end}));
    }
    if (!older.rows.empty()) section.parts.emplace_back(std::move(older));
    if (!places.empty()) section.parts.emplace_back(Paragraph{Text(places.substr(1))});
    std::vector<Section> sections{std::move(section)};
    if (has_block(subject, "tool-point")) std::ranges::move(tool_point_numbers(subject, ids), std::back_inserter(sections));
    return sections;
}

}  // namespace wayfolio::report
