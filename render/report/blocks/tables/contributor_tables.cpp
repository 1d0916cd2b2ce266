#include "report/blocks/tables/tables.hpp"

#include "report/words/names.hpp"
#include "report/words/passages.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::report {
namespace {

using evaluate::BudgetLine;
using evaluate::ParameterUncertainty;

constexpr std::size_t most_columns = 8;

bool is_scatter(const BudgetLine& line) { return line.influence == document::Influence::Scatter; }

/// What stands in one row: the single targets' random variation is one thing, whichever targets they are.
std::string row_key(const BudgetLine& line) { return is_scatter(line) ? "Random variation at the setting targets" : line.name; }

/// What the lines of one row bring to a result, expanded as its U is; nothing where they take no part. Correlated ones would add, but one
/// name stands in one budget once, and random variation at several targets is independent.
std::optional<Deviation> brought(const ParameterUncertainty& entry, const std::string& key) {
    double squares = 0;
    bool any = false;
    for (const BudgetLine& line : entry.contributors) {
        if (row_key(line) != key) continue;
        any = true;
        squares += std::pow(line.standard.in(entry.unit), 2);
    }
    return any ? std::optional(Deviation(entry.coverage_factor * std::sqrt(squares), entry.unit)) : std::nullopt;
}

/// The rows of a table before they are put into words: in the order of the parts of U, then as the budgets have them.
struct Named {
    PartOf of;
    std::string key;
    std::vector<std::string> bases;
};

std::vector<Named> named_rows(const std::vector<const UncertainResult*>& columns) {
    std::vector<Named> rows;
    for (const auto* column : columns)
        for (const BudgetLine& line : column->entry->contributors) {
            const std::string key = row_key(line);
            auto row = std::ranges::find(rows, key, &Named::key);
            if (row == rows.end()) row = rows.insert(rows.end(), {part_of(line), key, {}});
            if (!line.basis.empty() && !is_scatter(line)) add_once(row->bases, line.basis);
        }
    std::ranges::stable_sort(rows, {}, &Named::of);
    return rows;
}

/// A basis without the word for what it names, where it names the certificate of an instrument of the document.
std::string without_certificate(const Subject& subject, const std::string& basis) {
    static const std::string word = "certificate ";
    const auto named = [&](const document::Instrument& one) {
        return !one.certificate.empty() && basis.starts_with(word + one.certificate);
    };
    return std::ranges::any_of(subject.document.instruments, named) ? basis.substr(word.size()) : basis;
}

Text cell_of(const UncertainResult& column, const std::optional<Deviation>& value) {
    return Text(value ? result_number(column.shown, *value, column.decimals()) : no_value);
}

template <class Value>
std::vector<Text> cells_of(const std::vector<const UncertainResult*>& columns, Value value) {
    std::vector<Text> cells;
    for (const auto* column : columns) cells.push_back(value(*column));
    return cells;
}

/// What the document lacks for an uncertainty stays in the table, or nobody would miss it.
void add_missing(std::vector<ContributorRow>& rows, const Subject& subject, const std::vector<const UncertainResult*>& columns) {
    std::vector<std::string> missing;
    for (const evaluate::Lack& lack : subject.evaluation.lacking)
        if (lack.purpose == "uncertainty") add_once(missing, lack.what);
    for (const std::string& what : missing)
        rows.push_back({{}, Text().strong(capitalised(what)), cells_of(columns, [](const auto&) { return Text(no_value); }),
                        Text().strong("expected, not entered")});
}

ContributorRow combined_row(const std::vector<const UncertainResult*>& columns) {
    const auto factor = [](const UncertainResult* one) { return one->entry->coverage_factor; };
    const double k = factor(columns.front());
    const bool one_k = std::ranges::all_of(columns, [&](const auto* column) { return factor(column) == k; });
    Text name = Text().strong("Combined");
    if (one_k) name.strong(", ").symbol("k").strong("\u00a0=\u00a0" + units::number(k, 0, columns.front()->shown.style));
    if (one_k && k != std::round(k))
        name = Text().strong("Combined, ").symbol("k").strong("\u00a0=\u00a0" + units::number(k, 2, columns.front()->shown.style));
    const auto U = [](const UncertainResult& column) {
        return Text().strong(number_of(column.shown, column.entry->expanded, column.decimals()));
    };
    return {{}, name, cells_of(columns, U), Text("root of the sum of squares")};
}

ContributorTable table_of(const Subject& subject, const std::vector<const UncertainResult*>& columns) {
    ContributorTable table;
    std::vector<std::string> units;
    for (const auto* column : columns) {
        table.heads.push_back(head_of(*column));
        add_once(units, std::string(column->shown.unit.symbol));
        table.key += (table.key.empty() ? "contributors-" : "-") + column->entry->series + "-" + column->entry->parameter;
    }
    for (const std::string& unit : units) table.units += (table.units.empty() ? "" : ", ") + unit;
    for (const Named& row : named_rows(columns)) {
        const auto cell = [&](const UncertainResult& column) { return cell_of(column, brought(*column.entry, row.key)); };
        const bool random = row.of == PartOf::Scatter && row.bases.empty();
        std::vector<std::string> bases;
        for (const std::string& basis : row.bases) {
            bases.push_back(without_certificate(subject, basis));
            if (bases.back() != basis) table.basis_head = "Basis; certificates by their numbers";
        }
        table.rows.push_back({row.of, Text(capitalised(row.key)), cells_of(columns, cell),
                              Text(random ? "standard deviation of these readings" : listed(bases))});
    }
    const auto biased = [](const UncertainResult* column) { return column->entry->known_bias.has_value(); };
    if (std::ranges::any_of(columns, biased))
        table.rows.push_back({PartOf::KnownBias, Text("Known bias, not corrected"),
                              cells_of(columns, [](const auto& column) { return cell_of(column, column.entry->known_bias); }),
                              Text("added to the combined value as it is")});
    add_missing(table.rows, subject, columns);
    table.rows.push_back(combined_row(columns));
    return table;
}

/// What speaks for its quantity or has a limit; but for E beside A, which is made of the same, and for short lengths of a straightness.
std::vector<const UncertainResult*> columns_of(const std::vector<UncertainResult>& results) {
    const auto speaks_with_A = [&](const UncertainResult& one) {
        return std::ranges::any_of(results, [&](const UncertainResult& other) {
            return other.view == one.view && other.entry->parameter == "A" && !other.entry->contributors.empty();
        });
    };
    std::vector<const UncertainResult*> columns;
    for (const UncertainResult& result : results) {
        if (result.entry->contributors.empty() || !(result.decision || result.speaks) || result.entry->length_mm) continue;
        if (result.entry->parameter == "E" && result.view && speaks_with_A(result)) continue;
        columns.push_back(&result);
    }
    return columns;
}

void add_correlated(std::vector<std::string>& notes, const ParameterUncertainty& entry) {
    std::vector<std::string> names;
    for (const BudgetLine& line : entry.contributors)
        if (!line.correlated.empty()) add_once(names, line.correlated);
    for (const std::string& name : names) {
        std::vector<std::string> members;
        for (const BudgetLine& line : entry.contributors)
            if (line.correlated == name) members.push_back(line.name);
        add_once(notes, "Correlated (\u201c" + name + "\u201d), so added before squaring: " + listed(members) + ".");
    }
}

}  // namespace

std::vector<ContributorTable> contributor_tables(const Subject& subject, const std::vector<UncertainResult>& results) {
    const auto columns = columns_of(results);
    std::vector<ContributorTable> tables;
    const std::size_t parts = (columns.size() + most_columns - 1) / most_columns;
    for (std::size_t part = 0; part < parts; ++part) {
        const auto at = [&](std::size_t i) { return columns.begin() + static_cast<std::ptrdiff_t>(columns.size() * i / parts); };
        tables.push_back(table_of(subject, {at(part), at(part + 1)}));
    }
    return tables;
}

std::vector<Text> contributor_notes(const std::vector<UncertainResult>& results) {
    std::vector<std::string> notes;
    const auto columns = columns_of(results);
    if (columns.empty()) return {};
    for (const auto* column : columns) {
        add_correlated(notes, *column->entry);
        for (const std::string& note : column->entry->notes) add_once(notes, note);
    }
    notes.emplace_back(
        "Distributions, sensitivities and degrees of freedom of each, and the budgets of all other results, stand in the evaluation that "
        "this file carries.");
    Text text;
    for (const std::string& note : notes) text.plain((text.empty() ? "" : " ") + note);
    return {text};
}

}  // namespace wayfolio::report
