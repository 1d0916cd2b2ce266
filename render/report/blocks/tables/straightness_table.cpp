#include "report/blocks/tables/tables.hpp"

#include "report/words/judgements.hpp"
#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

/// What one series says in one row.
struct JointCells {
    Text value, U;
    const evaluate::Decision* decision = nullptr;
};

/// A row by its name, with the cells of each series; a series that has no such value leaves a dash.
struct JointRow {
    std::string name;
    std::vector<std::optional<JointCells>> of_series;
};

/// Rows in the order in which the first series that has them names them.
class JointRows {
public:
    explicit JointRows(std::size_t series) : series_(series) {}
    void set(std::size_t series, const std::string& name, JointCells cells) {
        auto found = std::ranges::find(rows_, name, &JointRow::name);
        if (found == rows_.end()) found = rows_.insert(rows_.end(), {name, std::vector<std::optional<JointCells>>(series_)});
        found->of_series.at(series) = std::move(cells);
    }
    [[nodiscard]] const std::vector<JointRow>& rows() const { return rows_; }

private:
    std::size_t series_;
    std::vector<JointRow> rows_;
};

/// Fills in what one series has.
struct SeriesColumn {
    const Subject& subject;
    const SeriesView& view;
    std::size_t place;
    JointRows& rows;

    void set(const std::string& name, const Deviation& value, const std::optional<Deviation>& U, const evaluate::Decision* decision) const {
        const int decimals = U ? result_decimals(view.shown, value, U)
                               : enough_decimals(view.shown, parameter_decimals(subject, view, "straightness"), {value});
        const std::string number = number_of(view.shown, value, decimals);
        rows.set(place, name,
                 {.value = decision ? Text().strong(number) : Text(number),
                  .U = U ? Text("±\u202f" + number_of(view.shown, *U, decimals)) : Text(),
                  .decision = decision});
    }
    void parameter(const std::string& name, const std::string& parameter) const {
        const auto value = known_value(view.evaluation, parameter);
        if (!value) return;
        const auto* decision = find_decision(subject.evaluation, view.series.id, parameter);
        set(name, *value, expanded_of(subject, view.series.id, parameter), decision);
    }
};

std::optional<Deviation> local_U(const Subject& subject, const SeriesView& view, double window_mm) {
    for (const auto& entry : subject.evaluation.uncertainty)
        if (entry.series == view.series.id && entry.length_mm == window_mm) return entry.expanded;
    return std::nullopt;
}

const evaluate::Decision* local_decision(const Subject& subject, const SeriesView& view, double window_mm) {
    for (const auto& decision : subject.evaluation.decisions)
        if (decision.series == view.series.id && decision.length_mm == window_mm) return &decision;
    return nullptr;
}

void add_column(const SeriesColumn& column) {
    const SeriesView& view = column.view;
    column.parameter("Straightness error, both approaches", "straightness");
    column.parameter("of the bi-directional mean", "straightness_mean");
    column.parameter("of the positive approach", "straightness_positive");
    column.parameter("of the negative approach", "straightness_negative");
    const auto* headline = evaluate::find_parameter(view.evaluation, "straightness");
    for (const auto& line : view.evaluation.lines)
        if (!headline || headline->reference_line != line.kind)
            column.set("by the " + reference_line_words(line.kind), line.straightness, std::nullopt, nullptr);
    for (const auto& local : view.evaluation.local) {
        if (local.reference != document::ReferenceLine::EndPoint) continue;
        const double window = local.window.in(units::millimetre);
        column.set("largest over any " + length_text(view.shown, window), local.value,
                   local_U(column.subject, view, window), local_decision(column.subject, view, window));
    }
    if (view.evaluation.closing_error) column.set("fails to close by", *view.evaluation.closing_error, std::nullopt, nullptr);
    column.parameter("Reversal error", "B");
}

}  // namespace

std::string reference_line_words(document::ReferenceLine line) {
    switch (line) {
        case document::ReferenceLine::EndPoint: return "end-point line";
        case document::ReferenceLine::LeastSquares: return "least-squares line";
        case document::ReferenceLine::MinimumZone: return "minimum zone";
    }
    return {};
}

std::optional<PlainTable> joint_straightness(const Subject& subject, const std::vector<SeriesView>& views) {
    const auto other = [&](const SeriesView& view) {
        return view.evaluation.kind != evaluate::SeriesKind::Straightness || !(view.shown.unit == views.front().shown.unit);
    };
    if (views.size() != 2 || std::ranges::any_of(views, other)) return std::nullopt;
    JointRows joint(views.size());
    for (std::size_t i = 0; i < views.size(); ++i) add_column({.subject = subject, .view = views[i], .place = i, .rows = joint});
    PlainTable table{.columns = {{"Parameter / " + std::string(views.front().shown.unit.symbol), 0.32}}};
    for (const SeriesView& view : views) {
        table.columns.push_back({view.series.error.text(), 0.08, numbers});
        table.columns.push_back({"± U", 0.08, numbers});
        table.columns.push_back({"limit", 0.06, numbers});
        table.columns.push_back({"verdict", 0.12});
    }
    for (const JointRow& row : joint.rows()) {
        std::vector<Text> cells{Text(row.name)};
        for (std::size_t i = 0; i < views.size(); ++i) {
            const JointCells of = row.of_series[i].value_or(JointCells{.value = Text(no_value), .U = Text()});
            cells.push_back(of.value);
            cells.push_back(of.U);
            cells.push_back(of.decision ? Text(limit_number(views[i].shown, of.decision->limit)) : Text());
            cells.push_back(of.decision ? verdict_of(of.decision, views[i].shown).head : Text());
        }
        table.rows.push_back(std::move(cells));
    }
    return table;
}

}  // namespace wayfolio::report
