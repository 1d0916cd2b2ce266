#include "report/words/passages.hpp"

#include "evaluate/numbers/budget.hpp"
#include "report/words/names.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::report {
namespace {

using evaluate::BudgetLine;
using evaluate::ParameterUncertainty;

std::string distribution_words(const std::string& distribution) { return distribution == "u_shaped" ? "U-shaped" : distribution; }

std::string significant(const Shown& shown, const Deviation& value) {
    const double number = value.in(shown.unit);
    return units::number(number, number > 0 ? units::decimals_for_uncertainty(number) : shown.decimals, shown.style);
}

/// What a contributor brings for each metre: as many µin for each inch; of an angle in its own unit.
std::string slope_text(const Shown& shown, const Deviation& for_one_metre) {
    if (for_one_metre.dimension() == units::Dimension::Angle)
        return with_unit(significant(shown, for_one_metre), std::string(shown.unit.symbol) + "/m");
    const double um = for_one_metre.in(units::micrometre);
    const int decimals = um > 0 ? units::decimals_for_uncertainty(um) : shown.decimals;
    return with_unit(units::number(um, decimals, shown.style),
                     shown.position == units::position_inch ? "µin/in" : units::micrometre_per_metre.symbol);
}

/// "u = 0.20 µm/m, rectangular; sensitivity 6.40 m; ν = 8"
Text made_of(const Shown& shown, const BudgetLine& line) {
    const double factor = line.sensitivity != 0 ? line.sensitivity : 1;
    const std::string sensitivity =
        line.per_metre ? length_text(shown, 1000 * factor) : units::number(factor, factor == 1 ? 0 : 3, shown.style);
    const Deviation one = abs(line.standard / factor);
    const std::string input = line.per_metre ? slope_text(shown, one) : with_unit(significant(shown, one), shown.unit.symbol);
    Text text = Text().symbol("u");
    text.plain("\u00a0=\u00a0" + input + ", " + distribution_words(line.distribution) + "; sensitivity " + sensitivity + "; ");
    return text.symbol("ν").plain("\u00a0=\u00a0" + freedom_text(line.degrees_of_freedom, shown.style));
}

Text correlated_note(const std::string& name, const std::vector<BudgetLine>& lines) {
    std::vector<std::string> members;
    for (const BudgetLine& line : lines)
        if (line.correlated == name) members.push_back(line.name);
    return Text("Correlated (\u201c" + name + "\u201d), so added before squaring: " + listed(members) +
                ". Their shares stand in proportion to what each brings.");
}

void add_correlation_notes(Budget& budget, const std::vector<BudgetLine>& lines) {
    std::vector<std::string> seen;
    for (const BudgetLine& line : lines) {
        if (line.correlated.empty() || std::ranges::find(seen, line.correlated) != seen.end()) continue;
        seen.push_back(line.correlated);
        budget.notes.push_back(correlated_note(line.correlated, lines));
    }
}

/// Few degrees of freedom make k = 2 cover less than it is taken for.
void add_coverage_note(Budget& budget, const ParameterUncertainty& entry, const units::NumberStyle& style) {
    constexpr double usual = 0.95, nearly = 0.945;
    if (entry.coverage >= nearly || entry.raised_to_capability) return;
    budget.notes.push_back(marked("With *\u03bd*\u00a0=\u00a0" +
                                  freedom_text(entry.degrees_of_freedom, style) +
                                  ", *k*\u00a0=\u00a0" + units::number(entry.coverage_factor, 0, style) + " covers about " +
                                  with_unit(units::number(100 * entry.coverage, 0, style), "%") + "; 95\u202f% needs *k*\u00a0=\u00a0" +
                                  units::number(evaluate::coverage_factor(entry.degrees_of_freedom, usual), 2, style) + "."));
}

void add_notes(Budget& budget, const SeriesView& view, const ParameterUncertainty& entry) {
    const Shown& shown = view.shown;
    add_coverage_note(budget, entry, shown.style);
    const std::string whole = value_text(shown, entry.expanded, result_decimals(shown, std::nullopt, entry.expanded));
    if (entry.raised_to_capability)
        budget.notes.push_back(
            Text("The budget gives less than the calibration and measurement capability (CMC) that the laboratory states, ")
                .plain(whole + ", which is printed instead."));
    add_correlation_notes(budget, entry.contributors);
    const auto& there = entry.expanded_at_setting_targets;
    if (there && value_text(shown, *there, result_decimals(shown, std::nullopt, there)) != whole)
        budget.notes.push_back(marked("Over the distance of the targets that set the value, instead of the whole travel, *U* would be " +
                                      value_text(shown, *there, result_decimals(shown, std::nullopt, there)) + "."));
    for (const std::string& note : entry.notes) budget.notes.emplace_back(note);
}

bool is_scatter(const BudgetLine& line) { return line.influence == document::Influence::Scatter; }

/// Contributions of the single targets' scatter are one line of the matrix: which targets they are differs between its columns.
double scatter_of(const ParameterUncertainty& entry, const DeviationUnit& unit) {
    double squares = 0;
    for (const BudgetLine& line : entry.contributors)
        if (is_scatter(line)) squares += std::pow(line.standard.in(unit), 2);
    return std::sqrt(squares);
}

/// What a contributor brings to a parameter; nothing where it takes no part.
std::optional<double> contribution(const ParameterUncertainty& entry, const std::string& name, const DeviationUnit& unit) {
    const auto found = std::ranges::find(entry.contributors, name, &BudgetLine::name);
    return found == entry.contributors.end() ? std::nullopt : std::optional(std::abs(found->standard.in(unit)));
}

bool may_be_column(const SeriesView& view, const ParameterUncertainty& entry) {
    return entry.series == view.series.id && !entry.axes && !entry.contributors.empty() && !direction_of(entry.parameter) &&
           entry.unit.dimension == view.shown.unit.dimension;
}

std::string column_head(const ParameterUncertainty& entry, const Shown& shown) {
    if (entry.length_mm) return "local " + length_text(shown, *entry.length_mm);
    if (entry.parameter == "B_mean") return "B, mean";
    if (entry.parameter == "straightness_mean") return "of the mean";
    const std::string symbol = parameter_symbol(entry.parameter);
    return symbol.empty() ? entry.parameter : symbol;
}

}  // namespace

std::string budget_parameter(const SeriesView& view, const ParameterUncertainty& entry) {
    std::string name = parameter_symbol(entry.parameter);
    if (name != entry.parameter) name = parameter_words(entry.parameter, view.evaluation.standard);
    if (name != entry.parameter) name = uncapitalised(name);
    if (entry.length_mm) name += " over " + length_text(view.shown, *entry.length_mm);
    return name;
}

std::string freedom_text(const std::optional<double>& degrees, const units::NumberStyle& style) {
    return degrees ? units::number(std::floor(*degrees), 0, style) : "∞";
}

std::string share_text(double share, const units::NumberStyle& style) {
    constexpr double rounds_to_none = 0.005;
    return share < rounds_to_none ? "<\u202f1" : units::number(100 * share, 0, style);
}

Budget budget_of(const Subject& subject, const SeriesView& view, const ParameterUncertainty& entry) {
    const Shown& shown = view.shown;
    const int decimals = result_decimals(shown, std::nullopt, entry.expanded);
    const auto contributed = [&](const Deviation& value) { return number_of(shown, abs(value), decimals + 1); };
    Budget budget{.heading = series_title(subject.document, view.series) + ": " + budget_parameter(view, entry),
                  .key = "budget-" + view.series.id + "-" + entry.parameter,
                  .contribution_head = marked("*u* / " + std::string(shown.unit.symbol))};
    auto lines = entry.contributors;
    std::ranges::stable_sort(lines, std::greater{}, &BudgetLine::share);
    for (const BudgetLine& line : lines)
        budget.rows.push_back({Text(capitalised(line.name)), made_of(shown, line), Text(contributed(line.standard)),
                               Text(with_unit(share_text(line.share, shown.style), "%")), Text(line.basis), line.share});
    budget.combined = entry.standard && !entry.raised_to_capability ? Text(contributed(*entry.standard)) : Text(no_value);
    budget.expanded_name =
        Text().strong("Expanded, ").symbol("k").strong("\u00a0=\u00a0" + units::number(entry.coverage_factor, 2, shown.style));
    if (entry.known_bias) budget.expanded_name.strong(", and known bias " + number_of(shown, *entry.known_bias, decimals));
    budget.expanded = Text().strong(number_of(shown, entry.expanded, decimals));
    budget.coverage = Text("coverage about " + with_unit(units::number(100 * entry.coverage, 0, shown.style), "%") + ", ")
                          .symbol("ν")
                          .plain("\u00a0=\u00a0" + freedom_text(entry.degrees_of_freedom, shown.style));
    add_notes(budget, view, entry);
    return budget;
}

std::vector<const ParameterUncertainty*> matrix_columns(const Subject& subject, const SeriesView& view) {
    std::vector<const ParameterUncertainty*> columns;
    constexpr std::size_t most = 6;
    for (const ParameterUncertainty& entry : subject.evaluation.uncertainty)
        if (may_be_column(view, entry) && columns.size() < most) columns.push_back(&entry);
    if (columns.size() < 2) columns.clear();
    return columns;
}

std::optional<Section> budget_matrix(const Subject& subject, const SeriesView& view) {
    const auto columns = matrix_columns(subject, view);
    if (columns.empty()) return std::nullopt;
    const Shown& shown = view.shown;
    const auto cell = [&](std::optional<double> value) { return Text(value ? units::number(*value, 2, shown.style) : no_value); };
    PlainTable table{.columns = {{"Contribution / " + std::string(shown.unit.symbol), 0.3}}};
    std::vector<std::string> names;
    for (const auto* column : columns) {
        table.columns.push_back({column_head(*column, shown), 0.7 / static_cast<double>(columns.size()), numbers});
        for (const BudgetLine& line : column->contributors)
            if (!is_scatter(line)) add_once(names, line.name);
    }
    const auto row = [&](Text name, auto&& value) {
        std::vector<Text> cells{std::move(name)};
        for (const auto* column : columns) cells.push_back(value(*column));
        table.rows.push_back(std::move(cells));
    };
    for (const std::string& name : names)
        row(Text(capitalised(name)), [&](const auto& column) { return cell(contribution(column, name, shown.unit)); });
    row(Text("Standard deviation at the targets that set it"), [&](const auto& column) { return cell(scatter_of(column, shown.unit)); });
    row(Text().strong("Combined ").symbol("u"), [&](const auto& column) {
        return column.standard && !column.raised_to_capability ? cell(column.standard->in(shown.unit)) : Text(no_value);
    });
    row(Text("Degrees of freedom"), [&](const auto& column) { return Text(freedom_text(column.degrees_of_freedom, shown.style)); });
    row(Text("Coverage factor ").symbol("k"),
        [&](const auto& column) { return Text(units::number(column.coverage_factor, 2, shown.style)); });
    if (std::ranges::any_of(columns, [](const auto* column) { return column->known_bias.has_value(); }))
        row(Text("Known bias, not corrected"),
            [&](const auto& column) { return column.known_bias ? cell(column.known_bias->in(shown.unit)) : Text(no_value); });
    row(Text().strong("Expanded ").symbol("U"), [&](const auto& column) {
        return Text().strong(number_of(shown, column.expanded, result_decimals(shown, std::nullopt, column.expanded)));
    });
    return Section{.heading = "All parameters of " + series_title(subject.document, view.series), .parts = {table}};
}

}  // namespace wayfolio::report
