#include "report/blocks/blocks.hpp"

#include "report/words/names.hpp"
#include "report/words/passages.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

std::string holds_words(const std::optional<bool>& holds) { return !holds ? "not stated" : *holds ? "holds" : "does not hold"; }

Text holds_text(const std::optional<bool>& holds) {
    const std::string words = holds_words(holds);
    return holds == false ? Text().strong(words) : !holds ? Text().quiet(words) : Text(words);
}

/// Series of one axis, state and kind ask for the same conditions: one table names them all.
struct ConditionGroup {
    std::vector<std::string> names;
    const evaluate::SeriesEvaluation* first;
};

bool same_conditions(const evaluate::SeriesEvaluation& a, const evaluate::SeriesEvaluation& b) {
    return std::ranges::equal(a.conditions, b.conditions,
                              [](const auto& x, const auto& y) { return x.name == y.name && x.holds == y.holds && x.text == y.text; });
}

std::vector<ConditionGroup> condition_groups(const Subject& subject) {
    std::vector<ConditionGroup> groups;
    for (const auto& series : subject.evaluation.series) {
        if (series.conditions.empty()) continue;
        const std::string name = series.error.text() + state_suffix(series.state);
        const auto found = std::ranges::find_if(groups, [&](const ConditionGroup& g) { return same_conditions(*g.first, series); });
        if (found == groups.end()) groups.push_back({{name}, &series});
        else found->names.push_back(name);
    }
    return groups;
}

Section condition_section(const ConditionGroup& group) {
    constexpr std::size_t most_in_head = 4;
    const bool many = group.names.size() > most_in_head;
    const std::string names = group.first->standard + ": " + listed(group.names);
    PlainTable table{.columns = {{many ? "Condition" : "Condition of " + names, 0.86}, {"verdict", 0.14}}};
    for (const auto& condition : group.first->conditions) table.rows.push_back({Text(condition.text), holds_text(condition.holds)});
    return {.heading = many ? "Conditions of " + names : "", .parts = {table}};
}

/// Where the layout has no page for the environment, its numbers stand here.
std::optional<Section> environment_section(const Subject& subject) {
    if (std::ranges::find(subject.layout.blocks, "environment") != subject.layout.blocks.end()) return std::nullopt;
    if (!subject.document.environment || subject.document.environment->samples.empty()) return std::nullopt;
    return Section{.heading = "Environment over the measuring time", .parts = {environment_table(subject)}};
}

std::optional<Section> warning_section(const Subject& subject) {
    if (subject.evaluation.warnings.empty()) return std::nullopt;
    BulletList list;
    for (const auto& warning : subject.evaluation.warnings)
        list.items.emplace_back(capitalised(warning.text) + (warning.text.ends_with('.') ? "" : "."));
    return Section{.heading = "Warnings", .parts = {list}, .set_as = SetAs::Reference};
}

std::optional<Section> remarks_section(const document::Document& document) {
    BulletList list;
    for (const std::string& remark : document.job.remarks) {
        if (!is_advice(remark)) list.items.emplace_back(remark);
    }
    for (const auto& series : document.series) {
        for (const std::string& remark : series.remarks) list.items.emplace_back(series_name(series) + ": " + remark);
    }
    if (list.items.empty()) return std::nullopt;
    return Section{.heading = "Remarks", .parts = {list}, .set_as = SetAs::Reference};
}

/// "ISO/IEC 17025 7.8.2.1 a" in two; a purpose that no standard has is whole.
std::pair<std::string, std::string> standard_and_clause(const std::string& purpose) {
    if (!purpose.starts_with("ISO")) return {purpose, ""};
    const auto number = purpose.find(' ');
    const auto end = number == std::string::npos ? number : purpose.find(' ', number + 1);
    return end == std::string::npos ? std::pair(purpose, std::string()) : std::pair(purpose.substr(0, end), purpose.substr(end + 1));
}

/// "7.8.2.1 a: " of a purpose; "b: " behind one of the same number, nothing behind the same.
std::string clause_words(const std::string& purpose, const std::string& said) {
    const auto [standard, clause] = standard_and_clause(purpose);
    const auto [standard_said, clause_said] = standard_and_clause(said);
    if (clause.empty() || purpose == said) return "";
    const auto letter = clause.rfind(' ');
    const bool same_number = standard == standard_said && letter != std::string::npos &&
                             clause_said.rfind(' ') == letter && clause_said.substr(0, letter) == clause.substr(0, letter);
    return (same_number ? clause.substr(letter + 1) : clause) + ": ";
}

std::optional<Section> lacking_section(const evaluate::Evaluation& evaluation) {
    if (evaluation.lacking.empty()) return std::nullopt;
    // A line for each purpose, or for each standard with what its clauses ask for: "7.8.2.1 a: title; b: ...".
    std::vector<Fact> facts;
    std::string said;
    for (const auto& lack : evaluation.lacking) {
        const std::string standard = standard_and_clause(lack.purpose).first;
        auto found = std::ranges::find(facts, standard, &Fact::name);
        const bool begins = found == facts.end();
        if (begins) found = facts.insert(found, {standard, {Text()}});
        Text& line = found->lines.front();
        line.plain(begins ? "" : lack.purpose == said ? ", " : "; ").plain(clause_words(lack.purpose, begins ? "" : said)).plain(lack.what);
        said = lack.purpose;
    }
    for (Fact& fact : facts) fact.lines.front().plain(".");
    return Section{.heading = "Missing in the document", .parts = {FactTable{facts}}, .anchor = lacking_anchor, .set_as = SetAs::Reference};
}

/// What page 1 says stands there only.
Section caution_section(const Subject& subject) {
    Text words;
    const auto say = [&](const std::string& sentence) { words.plain(words.empty() ? "" : " ").plain(sentence); };
    if (subject.document.job.status == document::Status::Draft) words.strong("This is a draft and not for use as a certificate.");
    if (has_answer(subject)) {
        say("The cautions of page 1 hold for every page.");
    } else {
        say("The results relate only to the machine, axes and measurement lines named here, and to the time of the test.");
        say("Laser light: observe the class on the instrument, never look into the beam or its reflections. Moving axes: lock out and "
            "clear the travel before set-up or adjustment. Local codes, the machine maker’s instructions and licensed practice come "
            "first.");
        say("Before a compensation table is loaded check its sign, unit and reference point; a table of the wrong sign doubles the error. "
            "Measure again afterwards.");
    }
    say("The uncertainty leaves out transport and long-term drift.");
    if (!subject.document.job.agreed_interval) say("This report makes no recommendation on the next calibration.");
    say("Not to be reproduced except in full without the laboratory’s consent.");
    return {.heading = "Cautions", .parts = {Paragraph{words}}, .set_as = SetAs::Reference};
}

/// What every report ends with.
std::vector<Section> last_sections(const Subject& subject) {
    std::vector<Section> sections;
    add_section(sections, remarks_section(subject.document));
    add_section(sections, lacking_section(subject.evaluation));
    sections.push_back(caution_section(subject));
    return sections;
}

bool has_lines_page(const Subject& subject) {
    return std::ranges::find(subject.layout.blocks, "measurement-lines") != subject.layout.blocks.end() && measurement_lines(subject);
}

Text lead_from(const std::optional<Section>& warnings, const Subject& subject, const std::string& set_up) {
    std::size_t failed = 0, stated = 0;
    for (const auto& group : condition_groups(subject)) {
        for (const auto& condition : group.first->conditions) {
            failed += condition.holds == false;
            stated += condition.holds.has_value();
        }
    }
    if (stated == 0)
        return Text(warnings ? "Conditions of the readings, and warnings."
                             : "Conditions of the readings.");
    if (failed == 0) return Text("Every stated condition of the standard holds." + set_up);
    return Text(capitalised(count_word(failed)) + (failed == 1 ? " condition" : " conditions") + " of the standard " +
                (failed == 1 ? "does" : "do") + " not hold; the readings are evaluated nevertheless." + set_up);
}

}  // namespace

Sections conditions(const Subject& subject) {
    Sections made;
    const auto warnings = warning_section(subject);
    const bool elsewhere = has_lines_page(subject);
    made.opening = {.label = elsewhere ? "Conditions" : "Conditions and set-up",
                    .anchor = "conditions",
                    .lead = lead_from(warnings, subject, elsewhere ? "" : setup_outside_words(subject.evaluation))};
    for (const auto& group : condition_groups(subject)) made.sections.push_back(condition_section(group));
    if (!elsewhere)
        for (Section& section : setup_sections(subject)) made.sections.push_back(std::move(section));
    add_section(made.sections, environment_section(subject));
    add_section(made.sections, warnings);
    return made;
}

Sections facts(const Subject& subject) {
    Sections made;
    made.opening = {.label = "Job, machine and instruments", .anchor = "facts"};
    made.sections = fact_sections(subject);
    return made;
}

Sections house(const Subject& subject) {
    const layouts::HouseWords& words = subject.layout.house;
    Sections made;
    made.opening = {.label = words.heading, .anchor = "house"};
    if (words.paragraphs.empty()) return made;
    Section section;
    for (const std::string& paragraph : words.paragraphs) section.parts.emplace_back(Paragraph{Text(paragraph)});
    made.sections.push_back(std::move(section));
    return made;
}

Sections remarks(const Subject& subject) {
    Sections made;
    made.opening = {.label = "Remarks and sign-off", .anchor = "closing"};
    add_section(made.sections, decision_section(subject));
    for (Section& section : last_sections(subject)) made.sections.push_back(std::move(section));
    made.signatures = signatures_of(subject);
    made.ends_report = true;
    return made;
}

Sections closing(const Subject& subject) {
    Sections made;
    made.opening = {.label = "Method, remarks and sign-off", .anchor = "closing"};
    for (Section& section : method_sections(subject)) made.sections.push_back(std::move(section));
    add_section(made.sections, decision_section(subject));
    for (Section& section : basis_sections(subject)) made.sections.push_back(std::move(section));
    for (Section& section : last_sections(subject)) made.sections.push_back(std::move(section));
    made.signatures = signatures_of(subject);
    made.ends_report = true;
    return made;
}

}  // namespace wayfolio::report
