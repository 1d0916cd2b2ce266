#include "report/blocks/tables/tables.hpp"

#include "report/words/changes/document_places.hpp"
#include "report/words/judgements.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::report {
namespace {

using compare::Comparison;
using compare::ParameterChange;

std::string short_digest(const std::string& sha256) {
    constexpr std::size_t shown_digits = 16;
    return sha256.substr(0, shown_digits);
}

std::string report_name(const document::Job& job) {
    if (job.number.empty()) return "";
    return job.number + revision_suffix(job);
}

void add_row(PlainTable& table, const char* name, const std::string& was, const std::string& now) {
    if (!was.empty() || !now.empty())
        table.rows.push_back(
            {Text().quiet(name), Text(was.empty() ? std::string(no_value) : was), Text(now.empty() ? std::string(no_value) : now)});
}

/// "Positioning EXX, as left"; a verdict on two axes has no series.
std::string title_by_id(const Subject& now, const std::vector<SeriesView>& views, const std::string& id) {
    const SeriesView* view = find_view(views, id);
    if (view) return series_title(now.document, view->series);
    const auto* series = document::find_series(now.document, id);
    return series ? series_name(*series) : id;
}

/// "Reversal error B, mean" of a parameter's name.
Text measured_title(const std::string& parameter, const SeriesView& view) {
    const std::size_t side = parameter.find('_');
    const std::string symbol = parameter_symbol(parameter);
    Text words(parameter_words(parameter.substr(0, side), view.evaluation.standard));
    if (!symbol.empty()) words.plain(" ").symbol(symbol);
    if (side == std::string::npos) return words;
    std::string rest = parameter.substr(side + 1);
    std::ranges::replace(rest, '_', ' ');
    return words.plain(", " + rest);
}

}  // namespace

Text parameter_title(const ParameterChange& change, const SeriesView& view) {
    if (change.length_mm) return Text(parameter_words(change.name, view.evaluation.standard) + change.parameter.substr(change.name.size()));
    Text title = measured_title(change.name, view);
    return change.at_tool_point ? title.plain(", at the functional point") : title;
}

Shown shown_of_change(const ParameterChange& change, const Subject& now) {
    const std::vector<SeriesView>& views = now.views;
    const SeriesView* view = find_view(views, change.series);
    return view ? view->shown : squareness_shown(now);
}

namespace {

std::string in_unit(const std::optional<Deviation>& value, const Shown& shown, int decimals) {
    return value ? number_of(shown, *value, decimals) : std::string(no_value);
}

/// A slope of a straightness is an angle though its series is shown as a length: such a parameter keeps the unit it is compared in.
Shown shown_of_parameter(const Shown& shown, const ParameterChange& change) {
    Shown made = shown;
    if (made.unit.dimension != change.unit.dimension) made.unit = change.unit;
    return made;
}

/// A side that has no value gives its reason beside the name.
Text with_reason(Text name, const ParameterChange& change) {
    if (!change.was && !change.reason_was.empty()) name.quiet("; old: " + change.reason_was);
    if (!change.now && !change.reason_now.empty()) name.quiet("; new: " + change.reason_now);
    return name;
}

PlainTable table_of_changes(const Shown& shown) {
    return {.columns = {
        {"Parameter / " + std::string(shown.unit.symbol), 0.40}, {"old", 0.1, numbers}, {"new", 0.1, numbers},
        {"change", 0.1, numbers}, {"U old", 0.09, numbers}, {"U new", 0.09, numbers}, {"change / U", 0.12, numbers}}};
}

void add_change(PlainTable& table, Text name, const ParameterChange& change, const Shown& shown) {
    const ChangeNumbers numbers = change_numbers(change, shown);
    const bool more_than_U = change.against_U && *change.against_U > 1;
    table.rows.push_back({with_reason(std::move(name), change), Text(numbers.was), Text(numbers.now), Text(numbers.change),
                          Text(numbers.U_was), Text(numbers.U_now), more_than_U ? Text().strong(numbers.of_U) : Text(numbers.of_U)});
}

Section plain_section(std::string heading, std::string words) {
    return {.heading = std::move(heading), .parts = {Paragraph{Text(std::move(words))}}};
}

std::string reading_words(const compare::ReadingChanges& readings, const Shown& shown) {
    if (!readings.same_plan) return "another measurement: other targets, runs or trace";
    std::vector<std::string> parts;
    const auto readings_word = [](std::size_t count, const char* does, const char* do_) {
        return count_word(count) + (count == 1 ? " reading " : " readings ") + (count == 1 ? does : do_);
    };
    if (readings.other_values > 0) parts.push_back(readings_word(readings.other_values, "has another value", "have other values"));
    if (readings.largest) parts.push_back("the largest difference is " + value_text(shown, *readings.largest, shown.statistics_decimals));
    if (readings.set_aside > 0) parts.push_back(readings_word(readings.set_aside, "more is excluded", "more are excluded"));
    if (readings.taken_back > 0) parts.push_back(readings_word(readings.taken_back, "is no longer excluded", "are no longer excluded"));
    return fmt::format("{}", fmt::join(parts, "; "));
}

Section readings_section(const Subject& now, const std::vector<SeriesView>& views, const Comparison& changes) {
    if (changes.readings.empty()) return plain_section("Readings", "The readings are the same.");
    PlainTable table{.columns = {{"no.", 0.06}, {"Series", 0.38}, {"what changed in it", 0.56}}};
    std::size_t number = changes.changes.size();
    for (const auto& readings : changes.readings) {
        ++number;
        if (const SeriesView* view = find_view(views, readings.series))
            table.rows.push_back({Text().strong(std::to_string(number)), Text(title_by_id(now, views, readings.series)),
                                  Text(capitalised(reading_words(readings, view->reading_shown)) + ".")});
    }
    return {.heading = "What changed in the readings", .parts = {table}};
}

std::string state_or_none(const std::string& state) { return state.empty() ? "no state given" : state_words(state); }

std::string name_by_id(const Subject& side, const std::string& id) {
    const auto* series = document::find_series(side.document, id);
    return series ? series_name(*series) : id;
}

std::optional<Section> pairing_section(const Subject& was, const Subject& now, const Comparison& changes) {
    BulletList list;
    if (!changes.state_was.empty() || !changes.state_now.empty())
        list.items.emplace_back("What the old visit left, " + state_or_none(changes.state_was) +
                                ", is compared with what the new one found, " + state_or_none(changes.state_now) + ".");
    for (const auto& pair : changes.paired_by_error) {
        const std::string before = name_by_id(was, pair.was), after = name_by_id(now, pair.now);
        list.items.emplace_back(before == after
                                    ? after + ": another series than in the old, the only one of the same error."
                                    : fmt::format("{} is compared with {}, the only one of the same error.", after, before));
    }
    for (const std::string& id : changes.only_was) list.items.emplace_back(name_by_id(was, id) + " is only in the old.");
    for (const std::string& id : changes.only_now) list.items.emplace_back(name_by_id(now, id) + " is only in the new.");
    if (list.items.empty()) return std::nullopt;
    return Section{.heading = "What is set beside what", .parts = {list}};
}

/// "B, mean" of "B_mean", "local over 300 mm" as it is.
std::string parameter_in_words(std::string parameter) {
    if (const std::size_t side = parameter.find('_'); side != std::string::npos) parameter.replace(side, 1, ", ");
    std::ranges::replace(parameter, '_', ' ');
    return parameter;
}

Section verdicts_section(const Subject& now, const std::vector<SeriesView>& views, const Comparison& changes) {
    if (changes.verdicts.empty()) return plain_section("Verdicts", "No verdict changed.");
    PlainTable table{.columns = {{"Decision on", 0.5}, {"old", 0.25}, {"new", 0.25}}};
    std::vector<compare::VerdictChange> verdicts = changes.verdicts;  // by series as the document has them
    std::ranges::stable_sort(verdicts, {}, [&](const auto& verdict) {
        return std::ranges::find_if(views, [&](const SeriesView& view) { return view.series.id == verdict.series; }) - views.begin();
    });
    for (const auto& verdict : verdicts) {
        const std::string title = title_by_id(now, views, verdict.series);
        table.rows.push_back({Text(title.empty() ? capitalised(verdict.parameter) : title + ", " + parameter_in_words(verdict.parameter)),
                              Text(std::string(evaluate::word(verdict.was))), Text().strong(evaluate::word(verdict.now))});
    }
    return {.heading = "Verdicts", .parts = {table}};
}

/// Numbered, so that people can speak of them.
Section settings_section(const Subject& was, const Subject& now, const Comparison& changes) {
    const char* heading = "What changed in the data";
    if (changes.changes.empty()) return plain_section(heading, "Apart from the readings, the documents say the same.");
    PlainTable table{.columns = {{"no.", 0.06}, {"Entry", 0.38}, {"old", 0.28}, {"new", 0.28}}};
    for (const auto& change : changes.changes)
        table.rows.push_back({Text().strong(std::to_string(table.rows.size() + 1)), Text(place_words(was, now, change)),
                              Text().quiet(value_words(was, change.was)), Text().strong(value_words(now, change.now))});
    Section section{.heading = heading, .parts = {table}};
    const auto& replaces = now.document.job.replaces;
    if (replaces && !replaces->reason.empty())
        section.parts.emplace_back(
            Paragraph{Text("Reason given for the new report: " + replaces->reason + (replaces->reason.ends_with('.') ? "" : "."))});
    return section;
}

std::vector<const ParameterChange*> parameters_of(const Comparison& changes, const std::string& series) {
    std::vector<const ParameterChange*> parameters;
    for (const ParameterChange& change : changes.parameters)
        if (change.series == series) parameters.push_back(&change);
    return parameters;
}

}  // namespace

ChangeNumbers change_numbers(const ParameterChange& change, const Shown& given) {
    const Shown shown = shown_of_parameter(given, change);
    int decimals = row_decimals(shown, {change.was, change.now}, {change.expanded_was, change.expanded_now});
    std::string difference = no_value;
    if (change.was && change.now) {
        const auto printed = printed_change(shown, *change.was, *change.now, decimals);
        decimals = printed.decimals;
        difference = (printed.value > 0 ? "+" : "") + units::number(printed.value, decimals, shown.style);
    }
    ChangeNumbers numbers{.was = in_unit(change.was, shown, decimals),
                          .now = in_unit(change.now, shown, decimals),
                          .change = difference,
                          .U_was = in_unit(change.expanded_was, shown, decimals),
                          .U_now = in_unit(change.expanded_now, shown, decimals),
                          .of_U = std::string(no_value)};
    constexpr double many_times = 10;
    if (change.against_U) numbers.of_U = units::number(*change.against_U, *change.against_U < many_times ? 2 : 1, shown.style);
    return numbers;
}

Section sides_section(const Subject& was, const Subject& now) {
    const document::Job &before = was.document.job, &after = now.document.job;
    PlainTable table{.columns = {{"Entry", 0.24}, {"old", 0.38}, {"new", 0.38}}};
    add_row(table, "Report", report_name(before), report_name(after));
    add_row(table, "Title", before.title, after.title);
    add_row(table, "Measured", measured_words(before), measured_words(after));
    add_row(table, "Issued", date_part(before.issued), date_part(after.issued));
    const auto serial = [](const Subject& side) { return side.document.machine ? side.document.machine->serial : std::string(); };
    add_row(table, "Machine", serial(was), serial(now));
    add_row(table, "SHA-256 of the document", short_digest(was.document.sha256), short_digest(now.document.sha256));
    return {.heading = "Old and new", .parts = {table}};
}

std::vector<Section> changes_sections(const Subject& was, const Subject& now, const Comparison& changes, const Causes& causes) {
    std::vector<Section> sections;
    sections.push_back(settings_section(was, now, changes));
    if (changes.series_compared > 0) {
        sections.push_back(readings_section(now, now.views, changes));
        add_section(sections, headline_changes_section(now, changes, causes));
    }
    return sections;
}

std::optional<Section> results_section(const Subject& now, const Comparison& changes) {
    const std::vector<SeriesView>& views = now.views;
    Section section{.heading = "Results"};
    std::vector<std::string> same;
    bool any_other = false;
    for (const SeriesView& view : views) {
        const auto parameters = parameters_of(changes, view.series.id);
        if (parameters.empty()) continue;
        const bool differs = std::ranges::any_of(parameters, [](const auto* change) { return change->differs(); });
        if (differs) any_other = true;
        else same.push_back(title_by_id(now, views, view.series.id));
    }
    for (const ParameterChange* change : parameters_of(changes, "")) {
        if (change->differs()) any_other = true;
        else same.push_back(change->parameter);
    }
    if (any_other)
        section.parts.emplace_back(
            Paragraph{marked("Every parameter stands in the table of its series. Change / *U*: over the *U* of the change. It is made of "
                             "standard uncertainties, the larger one where the readings are the same, which then share their errors; "
                             "else the root of the sum of squares, as of two independent measurements. Strong: more than that.")});
    if (!same.empty()) section.parts.emplace_back(Paragraph{Text("No parameter changed: " + listed(same) + ".")});
    return section.parts.empty() ? std::nullopt : std::optional(section);
}

std::vector<Section> compared_sections(const Subject& was, const Subject& now, const Comparison& changes) {
    std::vector<Section> sections;
    if (changes.series_compared > 0) sections.push_back(verdicts_section(now, now.views, changes));
    add_section(sections, pairing_section(was, now, changes));
    add_section(sections, results_section(now, changes));
    sections.push_back(sides_section(was, now));
    return sections;
}

std::optional<Section> squareness_changes_section(const Subject& now, const Comparison& changes) {
    const Shown shown = squareness_shown(now);
    PlainTable table = table_of_changes(shown);
    bool any_other = false;
    for (const ParameterChange* change : parameters_of(changes, "")) {
        add_change(table, Text(capitalised(change->parameter) + " ").symbol(change->error).plain(state_suffix(change->state)), *change,
                   shown);
        any_other = any_other || change->differs();
    }
    return any_other ? std::optional(Section{.heading = "Squareness", .parts = {table}}) : std::nullopt;
}

Section parameters_section(const Subject& now, const SeriesView& view, const Comparison& changes) {
    PlainTable table = table_of_changes(view.shown);
    for (const ParameterChange* change : parameters_of(changes, view.series.id)) {
        const Shown shown = shown_of_parameter(view.shown, *change);
        Text name = parameter_title(*change, view);
        if (!(shown.unit == view.shown.unit)) name.plain(" / " + std::string(shown.unit.symbol));
        add_change(table, std::move(name), *change, shown);
    }
    return {.heading = series_title(now.document, view.series), .parts = {table}};
}

}  // namespace wayfolio::report
