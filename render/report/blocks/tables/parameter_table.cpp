#include "report/blocks/tables/tables.hpp"

#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>
#include <array>

namespace wayfolio::report {
namespace {

using evaluate::Parameter;

/// Superscript figures as the font's own glyphs, never a fourth size of type.
std::string superscript(std::size_t number) {
    static constexpr std::array<std::string_view, 10> figures{"\u2070", "\u00b9", "\u00b2", "\u00b3", "\u2074",
                                                              "\u2075", "\u2076", "\u2077", "\u2078", "\u2079"};
    std::string text;
    for (const char digit : std::to_string(number)) text += figures[static_cast<std::size_t>(digit - '0')];
    return text;
}

/// Reasons, each named once and numbered in the order they are met.
class Reasons {
public:
    std::string mark(const std::string& reason) {
        auto found = std::ranges::find(reasons_, reason);
        if (found == reasons_.end()) found = reasons_.insert(reasons_.end(), reason);
        return superscript(static_cast<std::size_t>(found - reasons_.begin()) + 1);
    }
    [[nodiscard]] std::vector<Text> notes() const {
        std::vector<Text> notes;
        for (std::size_t i = 0; i < reasons_.size(); ++i)
            notes.emplace_back(superscript(i + 1) + "\u202fNot evaluated: " + reasons_[i] + ".");
        return notes;
    }

private:
    std::vector<std::string> reasons_;
};

struct Family {
    std::string name;
    bool one_way;  ///< has _positive and _negative members
};

/// `decimals` are those of the family's own U, so that a row reads alike.
Text parameter_cell(const SeriesView& view, const std::string& name, int decimals) {
    const auto value = known_value(view.evaluation, name);
    return Text(value ? number_of(view.shown, *value, decimals) : no_value);
}

std::string setting_targets(const Parameter& parameter) {
    std::vector<std::size_t> numbers;
    for (const evaluate::SetBy& set : parameter.set_by) {
        if (std::ranges::find(numbers, set.index + 1) == numbers.end()) numbers.push_back(set.index + 1);
    }
    std::string text;
    for (const std::size_t number : numbers) text += (text.empty() ? "" : ",\u00a0") + std::to_string(number);
    return text.empty() ? no_value : text;
}

ParameterRow parameter_row(const Subject& subject, const SeriesView& view, const Family& family, Reasons& reasons) {
    const Parameter* both = evaluate::find_parameter(view.evaluation, family.name);
    const auto U = expanded_of(subject, view.series.id, family.name);
    const auto* decision = find_decision(subject.evaluation, view.series.id, family.name);
    const auto value = value_of_parameter(view.evaluation, family.name);
    const auto one_way = [&](Approach approach) {
        return family.one_way ? known_value(view.evaluation, in_direction(family.name, approach)) : std::nullopt;
    };
    const int decimals = enough_decimals(view.shown, parameter_decimals(subject, view, family.name),
                                         {one_way(Approach::Positive), one_way(Approach::Negative)});
    ParameterRow row;
    row.name = Text(parameter_words(family.name, view.evaluation.standard));
    const std::string symbol = row.symbol = parameter_symbol(family.name);
    if (family.name == "B_mean") row.name.plain(" ").symbol("B").plain(" (signed)");
    else if (!symbol.empty()) row.name.plain(" ").symbol(symbol);
    row.positive = family.one_way ? parameter_cell(view, in_direction(family.name, Approach::Positive), decimals) : Text(no_value);
    row.negative = family.one_way ? parameter_cell(view, in_direction(family.name, Approach::Negative), decimals) : Text(no_value);
    row.both = both && (value || both->stated) ? Text().strong(parameter_cell(view, family.name, decimals).words()) : Text(no_value);
    row.U = U ? number_of(view.shown, *U, decimals) : no_value;
    row.limit = decision ? limit_number(view.shown, decision->limit) : no_value;
    row.targets = both ? setting_targets(*both) : no_value;
    if (both && !value && !both->stated) {
        if (const auto* reason = std::get_if<evaluate::NotEvaluated>(&both->value)) row.targets = no_value + reasons.mark(reason->reason);
    }
    row.verdict = verdict_of(decision, view.shown);
    return row;
}

std::vector<Family> families_of(const document::Document& document) {
    std::vector<Family> families{{"A", true}, {"E", true}, {"M", false}, {"R", true}, {"B", false}, {"B_mean", false}};
    using document::OlderStandard;
    for (const OlderStandard older : document.evaluation.also) {
        if (older == OlderStandard::Iso230_2_1988) families.insert(families.end(), {{"s3_A", true}, {"s3_R", true}});
        else
            families.insert(
                families.end(),
                {{"vdi_P", false}, {"vdi_Pa", false}, {"vdi_Ps", false}, {"vdi_Ps_mean", false}, {"vdi_U", false}, {"vdi_U_mean", false}});
    }
    return families;
}

/// Older evaluations keep the names and letters of their own editions [from memory].
Text older_name(const std::string& name) {
    if (name == "s3_A") return marked("*A* with 3\u202f*s* (ISO 230-2:1988)");
    if (name == "s3_R") return marked("*R* with 3\u202f*s* (ISO 230-2:1988)");
    if (name == "vdi_P") return marked("*P* positional uncertainty (VDI/DGQ 3441)");
    if (name == "vdi_Pa") return marked("*P\u2090* positional deviation (VDI/DGQ 3441)");
    if (name == "vdi_Ps") return marked("*P\u209b* largest position spread (VDI/DGQ 3441)");
    if (name == "vdi_Ps_mean") return marked("*P\u209b* mean position spread (VDI/DGQ 3441)");
    if (name == "vdi_U") return marked("*U* largest reversal (VDI/DGQ 3441)");
    return marked("*U* mean reversal (VDI/DGQ 3441)");
}

bool is_older(const std::string& name) { return name.starts_with("s3_") || name.starts_with("vdi_"); }

}  // namespace

ParameterTable parameter_table(const Subject& subject, const SeriesView& view) {
    ParameterTable table;
    Reasons reasons;
    for (const Family& family : families_of(subject.document)) {
        ParameterRow row = parameter_row(subject, view, family, reasons);
        if (is_older(family.name)) {
            row.name = older_name(family.name);
            row.symbol.clear();
            row.verdict.short_form = Text().quiet("for comparison only");
        }
        table.rows.push_back(std::move(row));
    }
    table.notes = reasons.notes();
    std::string dash_note = "Targets: those that set the value. A dash: not defined for one approach, not stated, or no limit.";
    if (view.evaluation.source == evaluate::Source::Stated) dash_note = "All values as stated by the analyst, not recomputed. " + dash_note;
    table.notes.emplace_back(dash_note);
    if (const auto agreed = agreed_limits(view)) table.notes.emplace_back(*agreed);
    return table;
}

}  // namespace wayfolio::report
