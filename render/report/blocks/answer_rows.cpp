#include "report/blocks/answer_rows.hpp"

#include "document/states.hpp"
#include "report/blocks/plots/plots.hpp"
#include "report/words/judgements.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>
#include <array>

namespace wayfolio::report {
namespace {

using document::ErrorKind;
using evaluate::Decision;
using evaluate::SquarenessEvaluation;

/// A series of the answer, with its figure made once for all its rows.
struct RowSource {
    const Subject& subject;
    const SeriesView& view;
    std::optional<std::size_t> axis;
    DeviationPlot plot;
};

std::string base_of(std::string_view parameter) {
    const auto approach = direction_of(parameter);
    return std::string(approach ? parameter.substr(0, parameter.size() - in_direction("", *approach).size()) : parameter);
}

/// Parameters of one number, in the order of the rows.
constexpr std::array<std::string_view, 6> in_order{"A", "E", "R", "B", "M", "B_mean"};

std::size_t rank_of(const std::string& parameter) {
    return static_cast<std::size_t>(std::ranges::find(in_order, base_of(parameter)) - in_order.begin());
}

std::size_t rank_of(ErrorKind kind) { return kind == ErrorKind::Positioning ? 0 : kind == ErrorKind::Straightness ? 1 : 2; }

/// "Straightness in Y", "Pitch": short, as the curve stands close to it.
std::string short_quantity(const Subject& subject, const document::ErrorSymbol& error) {
    return error.kind() == ErrorKind::Straightness ? "Straightness in " + std::string(1, error.direction)
                                                   : quantity_name(subject.document, error);
}

Text row_name(const RowSource& source, const std::string& parameter) {
    const std::string base = base_of(parameter);
    if (base == "R") return Text("Repeatability,\u00a0").symbol("R");
    if (base == "B") return Text("Reversal error,\u00a0").symbol("B");
    if (base == "B_mean") return Text("Mean reversal");
    Text name(short_quantity(source.subject, source.view.series.error));
    const std::string symbol = parameter_symbol(base);
    return symbol.empty() ? name : name.plain(",\u00a0").symbol(symbol);
}

/// What the name leaves open: the error of position, of which quantity, in which direction.
std::string row_kind(const RowSource& source, const std::string& parameter) {
    const document::ErrorSymbol& error = source.view.series.error;
    const std::string base = base_of(parameter), quantity = uncapitalised(short_quantity(source.subject, error));
    if (const auto approach = direction_of(parameter)) return std::string(word(*approach)) + " approach";
    if (base == "R" || base == "B" || base == "B_mean") return quantity;
    if (base == "A") return "error of position";
    if (base == "E") return "systematic error";
    if (base == "M") return "mean error";
    if (base == headline_parameter(source.view.series, source.view.evaluation)) {
        const std::string detail = quantity_detail(source.subject.document, error, parameter), symbol = error.text() + ", ";
        return detail.starts_with(symbol) ? detail.substr(symbol.size()) : "";
    }
    return uncapitalised(parameter_words(parameter, source.view.evaluation.standard));
}

std::string joined_by_comma(const std::string& first, const std::string& second) {
    return first + (first.empty() || second.empty() ? "" : ", ") + second;
}

/// Name, second line and the name in one line. A state or a length stands in place of the kind, as the curve stands close to it.
void name_row(QuantityRow& row, const RowSource& source, const std::string& parameter, const Decision* decision, bool superseded) {
    const document::ErrorSymbol& error = source.view.series.error;
    const std::string state = superseded ? "" : other_state_suffix(source.subject.document, source.view.series.state);
    const std::string length = decision && decision->length_mm ? "over " + length_text(source.view.shown, *decision->length_mm) : "";
    row.name = row_name(source, parameter);
    const std::string kind = !length.empty() ? length : state.empty() ? row_kind(source, parameter) : "";
    row.detail = joined_by_comma(error.text() + state, kind);
    const std::string symbol = parameter_symbol(parameter), base = base_of(parameter);
    row.short_name = Text(base == "R" ? "Repeatability" : base == "B" ? "Reversal" : base == "B_mean" ? "Mean reversal"
                          : error.kind() == ErrorKind::Straightness ? "Straightness" : quantity_name(source.subject.document, error));
    if (error.kind() == ErrorKind::Angle && row.short_name.words().starts_with("Rotation")) row.short_name = Text("Rotation");
    if (!symbol.empty() && base != "B_mean") row.short_name.plain("\u00a0").symbol(symbol);
    std::string rest = error.text();
    if (!length.empty()) {
        row.short_name = Text(rest + " " + length);  // one line of its column, as among the uncertainties
        return;
    }
    if (const auto approach = direction_of(parameter)) rest += ", " + std::string(word(*approach));
    else if (symbol.empty() && parameter != headline_parameter(source.view.series, source.view.evaluation))
        rest += ", " + kind;
    row.short_name.plain(" " + rest);
}

Text result_of(const Shown& shown, const Deviation& value, const std::optional<Deviation>& U, int decimals) {
    return Text(number_of(shown, value, decimals) + (U ? "\u00a0±\u202f" + number_of(shown, *U, decimals) : ""));
}

void add_result(QuantityRow& row, const Shown& shown, const std::optional<Deviation>& value, const std::optional<Deviation>& U,
                int decimals) {
    row.unit = shown.unit.symbol;
    row.result = value ? result_of(shown, *value, U, decimals) : Text(no_value);
    row.result_with_unit = value ? Text(result_text(shown, *value, U, decimals)) : Text(no_value);
}

/// "87.3 % of the limit, U 20.0 %".
std::string gauge_words(const QuantityRow& row, const Shown& shown) {
    const auto percent = [&](double share) { return units::number(100 * share, 1, shown.style) + "\u202f%"; };
    return percent(*row.value_of_limit) + " of the limit" + (row.U_of_limit ? ", U " + percent(*row.U_of_limit) : "");
}

/// "91 %"; what would round to certainty is not told as such.
std::string row_probability(double probability, const units::NumberStyle& style) {
    constexpr double near = 0.99, far = 0.01;
    if (probability > near) return ">\u202f99\u202f%";
    if (probability < far) return "<\u202f1\u202f%";
    return units::number(100 * probability, 0, style) + "\u202f%";
}

/// Limit, gauge, probability and verdict of a row.
void add_decision(QuantityRow& row, const Decision* decision, const Shown& shown) {
    row.verdict = verdict_of(decision, shown);
    if (!decision) return;
    row.limit = Text("limit " + with_unit(limit_number(shown, decision->limit), shown.unit.symbol));
    if (decision->probability_of_conformity && decision->expanded) {
        row.probability = decision->probability_of_conformity;
        row.probability_words = row_probability(*row.probability, shown.style);
    }
    const double limit = decision->limit.in(shown.unit);
    if (limit <= 0) return;
    if (decision->value) row.value_of_limit = judged_value(*decision).in(shown.unit) / limit;
    if (decision->expanded) row.U_of_limit = decision->expanded->in(shown.unit) / limit;
    if (row.value_of_limit) row.gauge_words = gauge_words(row, shown);
}

QuantityRow quantity_row(const RowSource& source, const std::string& parameter, const Decision* decision, bool superseded) {
    const SeriesView& view = source.view;
    QuantityRow row{.axis = source.axis};
    name_row(row, source, parameter, decision, superseded);
    row.curve = row_curve(source.plot, view.evaluation, parameter, decision);
    if (!row.curve.empty()) row.curve_words = row_curve_words(row.curve, view.shown);
    const evaluate::Parameter* found = evaluate::find_parameter(view.evaluation, parameter);
    const bool stated = decision ? decision->stated : found && found->stated && !evaluate::value_of(found->value);
    if (stated) row.detail = joined_by_comma(row.detail.substr(0, row.detail.find(',')), "as stated");
    if (stated && row.curve.empty()) row.no_curve = "no readings to draw";
    if (decision && decision->value)
        add_result(row, view.shown, decision->value, decision->expanded, decided_decimals(*decision, view.shown));
    else if (decision && decision->length_mm) add_result(row, view.shown, {}, {}, 0);
    else
        add_result(row, view.shown, known_value(view.evaluation, parameter), expanded_of(source.subject, view.series.id, parameter),
                   parameter_decimals(source.subject, view, parameter));
    add_decision(row, decision, view.shown);
    row.destination = where_told(source.subject, view.series.id);
    return row;
}

QuantityRow squareness_row(const Subject& subject, const SquarenessEvaluation& squareness) {
    const Shown shown = squareness_shown(subject);
    const std::string axes = squareness.axes[0] + " and " + squareness.axes[1];
    QuantityRow row{.name = Text("Squareness error"), .detail = squareness.symbol + ", " + axes};
    row.short_name = Text("Squareness " + squareness.symbol);
    const auto* angle = evaluate::value_of(squareness.value);
    const auto* decision = find_decision(subject.evaluation, squareness);
    const auto U = expanded_of(subject, squareness);
    const std::optional<Deviation> value = angle ? std::optional(Deviation(*angle)) : std::nullopt;
    add_result(row, shown, value, U, decision && decision->value ? decided_decimals(*decision, shown) : result_decimals(shown, value, U));
    if (const auto& beyond = squareness.beyond_right_angle)
        row.lean = *beyond == units::Angle() ? Lean::None : *beyond > units::Angle() ? Lean::Open : Lean::Closed;
    if (row.lean) row.curve_words = std::string("Angle between the axes: ") + (*row.lean == Lean::Open     ? "more than 90°."
                                                                               : *row.lean == Lean::Closed ? "less than 90°."
                                                                                                           : "90°.");
    add_decision(row, decision, shown);
    row.destination = squareness_anchor(subject, squareness);
    return row;
}

std::vector<const Decision*> decisions_of(const Subject& subject, const SeriesView& view) {
    std::vector<const Decision*> all;
    for (const Decision& decision : subject.evaluation.decisions)
        if (decision.series == view.series.id && !decision.axes) all.push_back(&decision);
    std::ranges::stable_sort(all, {}, [](const Decision* one) { return rank_of(one->parameter); });
    return all;
}

/// Parameters that a quantity is known by: those of positioning by their letters, of one approach where there is no other; else the
/// headline.
std::vector<std::string> told_parameters(const SeriesView& view) {
    const std::string headline = headline_parameter(view.series, view.evaluation);
    if (view.evaluation.kind != evaluate::SeriesKind::Positioning) return {headline};
    std::vector<std::string> told;
    for (const std::string_view symbol : in_order) {
        const auto known = [&](const std::string& name) { return known_value(view.evaluation, name).has_value(); };
        const std::string both(symbol);
        if (known(both) || both == headline) told.push_back(both);
        else
            for (const document::Approach approach : document::both_approaches)
                if (known(in_direction(both, approach))) told.push_back(in_direction(both, approach));
    }
    return told;
}

/// All rows of the first page while they are gathered.
class Rows {
public:
    Rows(Answer& made, const Subject& subject, const std::vector<SeriesView>& answering)
        : made_(made), subject_(subject), answering_(in_page_order(answering)) {}

    void add() {
        for (const SeriesView& view : subject_.views) sources_.push_back(source_of(view));
        add_answering();
        const auto answers = answering_squareness(subject_, answering_);
        add_squareness(answers);
        if (!unlimited_.rows.empty()) made_.quiet.push_back(std::move(unlimited_));
        add_superseded(answers);
    }

private:
    static std::vector<SeriesView> in_page_order(const std::vector<SeriesView>& views) {
        std::vector<std::string> axes;
        for (const SeriesView& view : views) add_once(axes, view.series.error.axis);
        std::vector<const SeriesView*> sorted;
        for (const SeriesView& view : views) sorted.push_back(&view);
        std::ranges::stable_sort(sorted, {}, [&](const SeriesView* view) {
            return std::pair(std::ranges::find(axes, view->series.error.axis) - axes.begin(), rank_of(view->series.error.kind()));
        });
        std::vector<SeriesView> ordered;
        for (const SeriesView* view : sorted) ordered.push_back(*view);
        return ordered;
    }

    RowSource source_of(const SeriesView& view) {
        RowSource source{.subject = subject_, .view = view, .axis = {},
                         .plot = deviation_plot(subject_.document, view.series, view.evaluation, view.shown)};
        std::vector<Position> places;
        for (const auto& target : source.plot.targets) places.push_back(target.position);
        for (const auto& sample : source.plot.trace) places.push_back(sample.position);
        if (places.empty()) return source;
        const auto [from, to] = std::ranges::minmax(places);
        const std::string title = view.series.error.axis + " / " + std::string(view.shown.position.symbol);
        auto axis = std::ranges::find(made_.axes, title, &RowAxis::title);
        if (axis == made_.axes.end()) axis = made_.axes.insert(axis, {title, view.shown.position, from, to});
        axis->from = std::min(axis->from, from);
        axis->to = std::max(axis->to, to);
        source.axis = axis - made_.axes.begin();
        return source;
    }

    const RowSource& source(const SeriesView& view) const {
        return *std::ranges::find_if(sources_, [&](const RowSource& one) { return one.view.series.id == view.series.id; });
    }

    /// Where no limit is set at all, what speaks for a quantity is the answer.
    bool speaks(const SeriesView& view, const std::string& parameter) const {
        return subject_.evaluation.decisions.empty() && parameter == headline_parameter(view.series, view.evaluation);
    }

    void add_answering() {
        for (const SeriesView& view : answering_) {
            const auto decisions = decisions_of(subject_, view);
            for (const Decision* decision : decisions)
                made_.rows.push_back(quantity_row(source(view), decision->parameter, decision, false));
            for (const std::string& parameter : told_parameters(view)) {
                if (std::ranges::any_of(decisions, [&](const Decision* one) { return one->parameter == parameter; })) continue;
                (speaks(view, parameter) ? made_.rows : unlimited_.rows).push_back(quantity_row(source(view), parameter, nullptr, false));
            }
        }
        const auto compared = document::states_compared(subject_.document);
        unlimited_.heading = Text().strong("No limit agreed" + (compared ? state_suffix(compared->second) : ""));
    }

    void add_squareness(const std::vector<const SquarenessEvaluation*>& answers) {
        for (const SquarenessEvaluation* one : answers) {
            const bool row = subject_.evaluation.decisions.empty() || find_decision(subject_.evaluation, *one);
            (row ? made_.rows : unlimited_.rows).push_back(squareness_row(subject_, *one));
        }
    }

    QuietRows& superseded(const SeriesView& view) {
        const std::string& state = view.series.state;
        for (std::size_t i = 0; i < superseded_states_.size(); ++i)
            if (superseded_states_[i] == state) return made_.quiet[made_.quiet.size() - superseded_states_.size() + i];
        superseded_states_.push_back(state);
        std::string when;
        for (const SeriesView& other : subject_.views)
            if (other.series.state == state && when.empty()) when = date_part(measured_when(other.series)).substr(0, date_length);
        if (!when.empty()) when.insert(0, " ");
        made_.quiet.push_back({.heading = Text().strong("Superseded" + state_suffix(state) + when), .rows = {}});
        return made_.quiet.back();
    }

    void add_superseded(const std::vector<const SquarenessEvaluation*>& answers) {
        for (const SeriesView& view : in_page_order(subject_.views)) {
            if (find_view(answering_, view.series.id)) continue;
            auto& rows = superseded(view).rows;
            const auto decisions = decisions_of(subject_, view);
            for (const Decision* decision : decisions) rows.push_back(quantity_row(source(view), decision->parameter, decision, true));
            for (const std::string& parameter : told_parameters(view))
                if (std::ranges::none_of(decisions, [&](const Decision* one) { return one->parameter == parameter; }))
                    rows.push_back(quantity_row(source(view), parameter, nullptr, true));
        }
        for (const SquarenessEvaluation& one : subject_.evaluation.squareness) {
            const SeriesView* first = find_view(subject_.views, one.series[0]);
            if (first && std::ranges::find(answers, &one) == answers.end())
                superseded(*first).rows.push_back(squareness_row(subject_, one));
        }
    }

    static constexpr std::size_t date_length = 10;
    Answer& made_;
    const Subject& subject_;
    std::vector<SeriesView> answering_;
    std::vector<RowSource> sources_;
    QuietRows unlimited_;
    std::vector<std::string> superseded_states_;
};

}  // namespace

void add_rows(Answer& made, const Subject& subject, const std::vector<SeriesView>& answering) { Rows(made, subject, answering).add(); }

}  // namespace wayfolio::report
